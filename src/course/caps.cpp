#include "course/caps.h"

#include <algorithm>
#include <cmath>

#include "base/expects.h"

namespace flattail::course {

std::vector<double> measure_curvature(const Path& path) {
    const std::size_t count = path.size();
    std::vector<double> curvature(count, 0.0);
    for (std::size_t i = 1; i + 1 < count; ++i) {
        const double in_x = path.east_m[i] - path.east_m[i - 1];
        const double in_y = path.north_m[i] - path.north_m[i - 1];
        const double out_x = path.east_m[i + 1] - path.east_m[i];
        const double out_y = path.north_m[i + 1] - path.north_m[i];
        const double turn_rad =
            std::atan2(in_x * out_y - in_y * out_x, in_x * out_x + in_y * out_y);
        const double road_m = 0.5 * (std::hypot(in_x, in_y) + std::hypot(out_x, out_y));
        curvature[i] = road_m > 0.0 ? turn_rad / road_m : 0.0;
    }
    return curvature;
}

double limit_corner_speed(double curvature_per_m, double lateral_m_s2) {
    const double bend = std::min(std::abs(curvature_per_m), 1.0 / kTightestRadius_m);
    const double straight = lateral_m_s2 / (kUncapped_m_s * kUncapped_m_s);
    return bend > straight ? std::sqrt(lateral_m_s2 / bend) : kUncapped_m_s;
}

void brake_ahead(std::vector<Node>& nodes, double brake_m_s2) {
    for (std::size_t i = nodes.size() - 1; i-- > 0;) {
        const double road_m = nodes[i + 1].distance_m - nodes[i].distance_m;
        const double next = nodes[i + 1].cap_m_s;
        const double reachable = std::sqrt(next * next + 2.0 * brake_m_s2 * road_m);
        nodes[i].cap_m_s = std::min(nodes[i].cap_m_s, reachable);
    }
}

void set_caps(Course& course) {
    FLATTAIL_EXPECTS(course.nodes.size() >= 2);
    for (Node& node : course.nodes) {
        node.corner_cap_m_s =
            limit_corner_speed(node.curvature_per_m, course.limits.lateral_m_s2);
        node.cap_m_s = std::min(node.corner_cap_m_s, course.limits.descent_cap_m_s);
        for (const Stretch& stretch : course.stretches) {
            const bool covers =
                node.distance_m >= stretch.from_m && node.distance_m <= stretch.to_m;
            if (covers && stretch.speed_cap_m_s) {
                node.cap_m_s = std::min(node.cap_m_s, *stretch.speed_cap_m_s);
            }
        }
    }
    brake_ahead(course.nodes, course.limits.brake_m_s2);
}

}  // namespace flattail::course
