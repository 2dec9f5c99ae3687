#include "sampling/road_hazard.h"

#include <algorithm>
#include <cmath>

#include "physics/flat_hazard.h"

namespace flattail::sampling {

namespace {

// Cobbles hit twice as often as a coarse road (assumption, as
// physics::find_impact_factor).
constexpr double kCobblesOverCoarse = 2.0;
// Fitting faults let go early: their hazard falls to 1/e over this distance, METHOD 6.6.
constexpr double kFade_m = physics::kFittingFadeLength;

double find_roughness(course::Surface surface, double rough_pinch_ratio) {
    switch (surface) {
        case course::Surface::kCoarse:
            return rough_pinch_ratio;
        case course::Surface::kCobbles:
            return kCobblesOverCoarse * rough_pinch_ratio;
        default:
            return 1.0;
    }
}

}  // namespace

RoadHazard::RoadHazard(const std::vector<course::Segment>& segments,
                       double rough_pinch_ratio) {
    ends_m_.push_back(0.0);
    for (auto& sum : sums_) sum.push_back(0.0);
    for (const course::Segment& s : segments) {
        const double impacts = find_roughness(s.surface, rough_pinch_ratio);
        ends_m_.push_back(s.from_m + s.length_m);
        sums_[0].push_back(sums_[0].back() + s.length_m * s.debris);
        sums_[1].push_back(sums_[1].back() + s.length_m * impacts);
        const double faults_m = -kFade_m * std::expm1(-ends_m_.back() / kFade_m);
        sums_[2].push_back(faults_m);
    }
}

double RoadHazard::find_place_m(FlatCause cause, double share) const {
    const std::vector<double>& sum = sums(cause);
    const double wanted = share * sum.back();
    const auto above = std::upper_bound(sum.begin() + 1, sum.end() - 1, wanted);
    const auto i = static_cast<std::size_t>(above - sum.begin());
    const double step = sum[i] - sum[i - 1];
    const double part = step > 0.0 ? (wanted - sum[i - 1]) / step : 0.0;
    return ends_m_[i - 1] + std::clamp(part, 0.0, 1.0) * (ends_m_[i] - ends_m_[i - 1]);
}

}  // namespace flattail::sampling
