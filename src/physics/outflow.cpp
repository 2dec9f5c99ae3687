#include "physics/outflow.h"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "base/expects.h"

namespace flattail::physics {
namespace {

// Closed forms below hold for a ratio of heats of 7/5. Carbon dioxide (1.3) differs by 5
// %.
constexpr double kHeatRatio = 1.4;
constexpr double kChokedExponent = 3.5;  // g/(g - 1)

double compute_effective_area_m2(const Hole& hole) {
    return hole.discharge_coefficient * 0.25 * kPi * hole.diameter_m * hole.diameter_m;
}

/// sqrt(g/R) (2/(g+1))^((g+1)/(2(g-1))) = .040415 for air.
double compute_choked_constant() {
    return std::sqrt(kHeatRatio / kDryAirGasConstant) *
           std::pow(2.0 / (kHeatRatio + 1.0), 3.0);
}

double compute_choked_rate_per_s(const LeakingTube& tube) {
    return compute_choked_constant() * compute_effective_area_m2(tube.hole) *
           kDryAirGasConstant * std::sqrt(tube.temperature_k) / tube.volume_m3;
}

double find_choking_pressure_pa(const LeakingTube& tube) {
    return tube.ambient_pa / compute_choking_ratio();
}

/// Time left from a pressure below choking until the outside pressure is reached.
double compute_subsonic_rest_s(const LeakingTube& tube, double absolute_pa) {
    if (absolute_pa <= tube.ambient_pa) return 0.0;
    const double z2 = std::pow(absolute_pa / tube.ambient_pa, 2.0 / 7.0) - 1.0;
    const double z = std::sqrt(z2);
    const double rate_per_s = compute_effective_area_m2(tube.hole) / tube.volume_m3 *
                              std::sqrt(7.0 * kDryAirGasConstant * tube.temperature_k);
    return 7.0 / rate_per_s * z * (1.0 + z2 * (2.0 / 3.0 + z2 / 5.0));
}

double compute_rest_s(const LeakingTube& tube, double absolute_pa) {
    const double choking_pa = find_choking_pressure_pa(tube);
    if (absolute_pa <= choking_pa) return compute_subsonic_rest_s(tube, absolute_pa);
    return std::log(absolute_pa / choking_pa) / compute_choked_rate_per_s(tube) +
           compute_subsonic_rest_s(tube, choking_pa);
}

}  // namespace

double compute_choking_ratio() {
    return std::pow(2.0 / (kHeatRatio + 1.0), kChokedExponent);
}

double compute_mass_flow_kg_s(const LeakingTube& tube, double absolute_pa) {
    if (absolute_pa <= tube.ambient_pa) return 0.0;
    const double area_m2 = compute_effective_area_m2(tube.hole);
    const double ratio = tube.ambient_pa / absolute_pa;
    if (ratio <= compute_choking_ratio()) {
        return compute_choked_constant() * area_m2 * absolute_pa /
               std::sqrt(tube.temperature_k);
    }
    const double shape = std::sqrt(std::pow(ratio, 2.0 / kHeatRatio) -
                                   std::pow(ratio, (kHeatRatio + 1.0) / kHeatRatio));
    return area_m2 * absolute_pa * shape *
           std::sqrt(7.0 / (kDryAirGasConstant * tube.temperature_k));
}

double compute_fall_time_s(const LeakingTube& tube, double from_pa, double to_pa) {
    FLATTAIL_EXPECTS(from_pa >= to_pa && to_pa >= tube.ambient_pa);
    FLATTAIL_EXPECTS(tube.hole.diameter_m > 0.0 && tube.volume_m3 > 0.0);
    return compute_rest_s(tube, from_pa) - compute_rest_s(tube, to_pa);
}

double compute_pressure_after_outflow_pa(const LeakingTube& tube, double from_pa,
                                         double time_s) {
    FLATTAIL_EXPECTS(from_pa >= tube.ambient_pa && time_s >= 0.0);
    FLATTAIL_EXPECTS(tube.hole.diameter_m > 0.0 && tube.volume_m3 > 0.0);
    const double choking_pa = find_choking_pressure_pa(tube);
    const double choked_pa =
        from_pa * std::exp(-compute_choked_rate_per_s(tube) * time_s);
    if (choked_pa >= choking_pa) return choked_pa;
    const double rest_s = compute_rest_s(tube, from_pa) - time_s;
    if (rest_s <= 0.0) return tube.ambient_pa;
    const auto late_s = [&](double pressure_pa) {
        return compute_subsonic_rest_s(tube, pressure_pa) - rest_s;
    };
    std::uintmax_t tries = 100;
    const auto [left, right] = boost::math::tools::toms748_solve(
        late_s, tube.ambient_pa, std::min(from_pa, choking_pa) * (1.0 + 1e-12),
        boost::math::tools::eps_tolerance<double>(44), tries);
    return 0.5 * (left + right);
}

}  // namespace flattail::physics
