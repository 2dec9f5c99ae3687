#include "physics/rolling.h"

#include <algorithm>
#include <cmath>

#include "base/expects.h"

namespace flattail::physics {
namespace {

double compute_pressure_ratio(const RollingLaw& law, double pressure_pa) {
    return std::max(pressure_pa, kFlatWheelPressure) / law.reference_pressure_pa;
}

double compute_roughness_part(const RollingLaw& law, const RollingState& state) {
    return state.roughness_crr * std::pow(compute_pressure_ratio(law, state.pressure_pa),
                                          law.roughness_exponent);
}

/// What multiplies the hysteresis constant in a state.
double compute_hysteresis_factor(const RollingLaw& law, const RollingState& state) {
    return std::pow(compute_pressure_ratio(law, state.pressure_pa),
                    -law.hysteresis_exponent) *
           compute_temperature_factor(state.temperature_k,
                                      law.temperature_coefficient_per_k);
}

}  // namespace

double convert_power_to_crr(double power_w, const RollingPoint& point) {
    FLATTAIL_EXPECTS(point.speed_m_s > 0.0 && point.load_kg > 0.0);
    return power_w / (point.speed_m_s * point.load_kg * point.gravity_m_s2);
}

double convert_crr_to_power_w(double crr, const RollingPoint& point) {
    return crr * point.speed_m_s * point.load_kg * point.gravity_m_s2;
}

double compute_drum_to_flat_factor(double drum_radius_m, double tyre_radius_m) {
    FLATTAIL_EXPECTS(drum_radius_m > 0.0 && tyre_radius_m > 0.0);
    return std::sqrt(drum_radius_m / (drum_radius_m + tyre_radius_m));
}

double compute_temperature_factor(double temperature_k, double coefficient_per_k) {
    // At -5 C the divisor is 1 - 30 K: a coefficient of .033 would bring it to zero.
    FLATTAIL_EXPECTS(coefficient_per_k >= 0.0 && coefficient_per_k < 0.03);
    const double held_k =
        std::clamp(temperature_k, kColdestRollingTemperature, kHottestRollingTemperature);
    return 1.0 / (1.0 + coefficient_per_k * (held_k - kRollingReferenceTemperature));
}

double find_default_crr(Surface surface) {
    switch (surface) {
        case Surface::kSmooth:
            return 0.0038;
        case Surface::kOrdinary:
            return 0.0045;
        case Surface::kCoarse:
            return 0.0060;
        case Surface::kCobbles:
            return 0.011;
    }
    return 0.0045;
}

double find_default_roughness_crr(Surface surface) {
    return find_default_crr(surface) - kDefaultHysteresisCrr;
}

double compute_crr(const RollingLaw& law, const RollingState& state) {
    return law.hysteresis_crr * compute_hysteresis_factor(law, state) +
           compute_roughness_part(law, state);
}

double solve_hysteresis_crr(double measured_crr, const RollingLaw& law,
                            const RollingState& state) {
    return (measured_crr - compute_roughness_part(law, state)) /
           compute_hysteresis_factor(law, state);
}

double find_best_pressure_pa(const RollingLaw& law, const RollingState& state,
                             const PressureRange& range) {
    FLATTAIL_EXPECTS(range.lowest_pa <= range.highest_pa);
    FLATTAIL_EXPECTS(law.hysteresis_exponent + law.roughness_exponent > 0.0);
    const double rising = state.roughness_crr * law.roughness_exponent;
    if (rising <= 0.0) return range.highest_pa;
    const double falling = law.hysteresis_crr * law.hysteresis_exponent *
                           compute_temperature_factor(state.temperature_k,
                                                      law.temperature_coefficient_per_k);
    const double exponent = 1.0 / (law.hysteresis_exponent + law.roughness_exponent);
    const double best_pa =
        law.reference_pressure_pa * std::pow(std::max(falling, 0.0) / rising, exponent);
    return std::clamp(best_pa, range.lowest_pa, range.highest_pa);
}

}  // namespace flattail::physics
