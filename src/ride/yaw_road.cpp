#include "ride/yaw_road.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/expects.h"
#include "physics/constants.h"
#include "physics/drag/yaw_drag.h"
#include "ride/pacing.h"

namespace flattail::ride {

namespace {

// Directions in steps of 45 degrees, climbs and descents apart. Finer steps change a
// ride by less than .01 % (tests/reference/yaw_accuracy_test.cpp).
constexpr int kDirections = 8;
constexpr std::array<double, 2> kPaces_m_s = {6.0, 11.0};
constexpr int kBins = kDirections * (static_cast<int>(kPaces_m_s.size()) + 1);

int find_bin(const SegmentTerms& q, double speed_m_s) {
    const double turn = std::atan2(q.head_x, q.head_y) / (2.0 * physics::kPi) + 1.0;
    const int direction = static_cast<int>(turn * kDirections) % kDirections;
    int pace = 0;
    for (const double limit : kPaces_m_s) pace += speed_m_s > limit ? 1 : 0;
    return pace * kDirections + direction;
}

// Sums over the segments of one bin; divided by the length at the end.
void add_segment(const SegmentTerms& q, const TypicalMoment& typical, YawSector& sum) {
    const double length = 0.5 * q.twice_length;
    sum.length_m += length;
    sum.head_x += length * q.head_x;
    sum.head_y += length * q.head_y;
    sum.shelter_sq += length * q.shelter_sq;
    sum.speed_m_s += length * typical.speed_m_s;
    sum.head_wind_m_s += length * typical.head_wind_m_s;
}

void average(YawSector& sum) {
    for (double* value : {&sum.head_x, &sum.head_y, &sum.shelter_sq, &sum.speed_m_s,
                          &sum.head_wind_m_s}) {
        *value /= sum.length_m;
    }
}

YawTerms make_terms(const std::vector<physics::YawRow>& rows,
                    const course::TypicalRider& rider) {
    const physics::YawDrag drag = physics::make_yaw_drag(rows);
    YawTerms terms;
    FLATTAIL_EXPECTS(drag.tangent.size() <= kMostYawHinges);
    terms.hinges = static_cast<int>(drag.tangent.size());
    terms.first = drag.first;
    std::copy(drag.tangent.begin(), drag.tangent.end(), terms.tangent);
    std::copy(drag.bend.begin(), drag.bend.end(), terms.bend);
    terms.typical_ratio = rider.power_w / rider.half_rho_cda_kg_m;
    return terms;
}

}  // namespace

YawStretch YawRoad::at(std::size_t mark) const {
    const int begin = first_sector[mark], end = first_sector[mark + 1];
    return {&terms, sectors.data() + begin, end - begin};
}

YawRoad build_yaw_road(const scenario::Model& model, const course::TypicalRider& rider,
                       const Road& road) {
    YawRoad yaw;
    if (model.rider.drag_by_yaw.empty()) return yaw;
    yaw.terms = make_terms(model.rider.drag_by_yaw, rider);
    const std::vector<TypicalMoment> typical = ride_typical(model, rider, road);
    for (std::size_t m = 0; m < road.mark_segment.size(); ++m) {
        std::array<YawSector, kBins> bins{};
        const int end =
            m + 1 < road.mark_segment.size() ? road.mark_segment[m + 1] : road.count();
        for (int i = road.mark_segment[m]; i < end; ++i) {
            const auto s = static_cast<std::size_t>(i);
            const int bin = find_bin(road.terms[s], typical[s].speed_m_s);
            add_segment(road.terms[s], typical[s], bins[static_cast<std::size_t>(bin)]);
        }
        yaw.first_sector.push_back(static_cast<int>(yaw.sectors.size()));
        for (YawSector& bin : bins) {
            if (bin.length_m <= 0.0) continue;
            average(bin);
            yaw.sectors.push_back(bin);
        }
    }
    yaw.first_sector.push_back(static_cast<int>(yaw.sectors.size()));
    return yaw;
}

}  // namespace flattail::ride
