#include "physics/drag/yaw_drag.h"

#include <algorithm>
#include <cmath>

namespace flattail::physics {

namespace {

// Between rows the ratio is bent at least this often; 1 / cos and the change from yaw to
// its tangent are nearly straight over so little.
constexpr double kStep_rad = 0.0437;  // 2.5 deg
// Air that comes from behind or stands still counts as the widest yaw.
constexpr double kLeastAlong_m_s = 1e-3;

struct Knot {
    double tangent, ratio;
};

Knot make_knot(double yaw_rad, double factor) {
    return {std::tan(yaw_rad), factor / std::cos(yaw_rad)};
}

std::vector<Knot> make_knots(const std::vector<YawRow>& rows) {
    std::vector<Knot> knots = {make_knot(rows.front().yaw_rad, rows.front().factor)};
    for (std::size_t i = 1; i < rows.size(); ++i) {
        const YawRow &a = rows[i - 1], &b = rows[i];
        const int steps =
            std::max(static_cast<int>(std::ceil((b.yaw_rad - a.yaw_rad) / kStep_rad)), 1);
        for (int k = 1; k <= steps; ++k) {
            const double share = static_cast<double>(k) / steps;
            knots.push_back(make_knot(a.yaw_rad + share * (b.yaw_rad - a.yaw_rad),
                                      a.factor + share * (b.factor - a.factor)));
        }
    }
    return knots;
}

}  // namespace

YawDrag make_yaw_drag(const std::vector<YawRow>& rows) {
    YawDrag drag;
    const std::vector<Knot> knots = make_knots(rows);
    drag.first = knots.front().ratio;
    double slope_before = 0.0;
    for (std::size_t i = 0; i < knots.size(); ++i) {
        const double slope = i + 1 < knots.size()
                                 ? (knots[i + 1].ratio - knots[i].ratio) /
                                       (knots[i + 1].tangent - knots[i].tangent)
                                 : 0.0;
        drag.tangent.push_back(knots[i].tangent);
        drag.bend.push_back(slope - slope_before);
        slope_before = slope;
    }
    return drag;
}

double find_yaw_ratio(const YawDrag& drag, double along_m_s, double across_m_s) {
    const double tangent = std::abs(across_m_s) / std::max(along_m_s, kLeastAlong_m_s);
    double ratio = drag.first;
    for (std::size_t k = 0; k < drag.tangent.size(); ++k) {
        ratio += drag.bend[k] * std::max(tangent - drag.tangent[k], 0.0);
    }
    return ratio;
}

}  // namespace flattail::physics
