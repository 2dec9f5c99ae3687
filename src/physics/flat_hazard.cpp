#include "physics/flat_hazard.h"

#include <algorithm>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/math/special_functions/trigamma.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "base/expects.h"

namespace flattail::physics {

double find_tyre_factor(TyreKind kind) {
    switch (kind) {
        case TyreKind::kRace:
            return 1.0;
        case TyreKind::kThin:
            return 1.6;
        case TyreKind::kTough:
            return 0.45;
    }
    return 1.0;
}

double find_wear_factor(TyreWear wear) {
    switch (wear) {
        case TyreWear::kFresh:
            return 1.0;
        case TyreWear::kHalfWorn:
            return 1.3;
        case TyreWear::kWorn:
            return 2.0;
    }
    return 1.0;
}

double find_wet_factor(Wetness wetness) { return wetness == Wetness::kWet ? 1.7 : 1.0; }

double find_inner_factor(Inner inner) {
    switch (inner) {
        case Inner::kButyl:
        case Inner::kThermoplastic:
        case Inner::kLatex:
        case Inner::kTubeless:
            return 1.0;
    }
    return 1.0;
}

double compute_cut_ratio(const CutFactors& factors) {
    return factors.race * factors.debris * factors.wet * factors.tyre * factors.wear *
           factors.inner;
}

double find_impact_factor(Surface surface) {
    switch (surface) {
        case Surface::kSmooth:
        case Surface::kOrdinary:
            return 1.0;
        case Surface::kCoarse:
            return 3.0;
        case Surface::kCobbles:
            return 6.0;
    }
    return 1.0;
}

double compute_pinch_limit_ratio(const PinchLaw& law, const PinchState& state) {
    FLATTAIL_EXPECTS(state.pressure_pa > 0.0 && state.width_m > 0.0 &&
                     state.load_n > 0.0);
    const PinchState& from = law.reference;
    return std::pow(state.pressure_pa / from.pressure_pa, law.pressure_exponent) *
           std::pow(state.width_m / from.width_m, law.width_exponent) *
           std::pow(from.load_n / state.load_n, law.load_exponent) *
           (state.inner_limit_ratio / from.inner_limit_ratio);
}

double compute_pinch_ratio(const PinchLaw& law, const PinchState& state) {
    return std::exp(-law.steepness * (compute_pinch_limit_ratio(law, state) - 1.0));
}

double find_fitting_fault_chance(Inner inner, Fitter fitter) {
    const double skill = fitter == Fitter::kBeginner ? 3.0 : 1.0;
    switch (inner) {
        case Inner::kButyl:
        case Inner::kTubeless:
            return 0.003 * skill;
        case Inner::kThermoplastic:
            return 0.006 * skill;
        case Inner::kLatex:
            return 0.008 * skill;
    }
    return 0.003 * skill;
}

namespace {

/// Cumulative hazard of the fitting that a tube still has before it.
double compute_fitting_hazard_left(const Fitting& fitting) {
    FLATTAIL_EXPECTS(fitting.fault_chance >= 0.0 && fitting.fault_chance < 1.0);
    FLATTAIL_EXPECTS(fitting.ridden_m >= 0.0 && fitting.fade_length_m > 0.0);
    return -std::log1p(-fitting.fault_chance) *
           std::exp(-fitting.ridden_m / fitting.fade_length_m);
}

}  // namespace

double compute_fitting_hazard_per_m(const Fitting& fitting) {
    return compute_fitting_hazard_left(fitting) / fitting.fade_length_m;
}

double compute_fitting_fault_chance(const Fitting& fitting, double distance_m) {
    FLATTAIL_EXPECTS(distance_m >= 0.0);
    const double faded = -std::expm1(-distance_m / fitting.fade_length_m);
    return -std::expm1(-compute_fitting_hazard_left(fitting) * faded);
}

double compute_sealant_hold_chance(double fresh_chance, double age_s) {
    FLATTAIL_EXPECTS(fresh_chance >= 0.0 && fresh_chance <= 1.0 && age_s >= 0.0);
    return age_s > kSealantFadeTime ? fresh_chance * kSealantFadeShare : fresh_chance;
}

double sum_hazard(std::span<const Stretch> stretches) {
    double sum = 0.0;
    for (const Stretch& stretch : stretches)
        sum += stretch.length_m * stretch.hazard_per_m;
    return sum;
}

double compute_no_flat_chance(double cumulative_hazard) {
    return std::exp(-cumulative_hazard);
}

double compute_flat_count_chance(double cumulative_hazard, int count) {
    FLATTAIL_EXPECTS(cumulative_hazard >= 0.0 && count >= 0);
    if (cumulative_hazard <= 0.0) return count == 0 ? 1.0 : 0.0;
    return std::exp(count * std::log(cumulative_hazard) - cumulative_hazard -
                    boost::math::lgamma(count + 1.0));
}

double compute_at_least_chance(double cumulative_hazard, int count) {
    FLATTAIL_EXPECTS(cumulative_hazard >= 0.0 && count >= 0);
    if (count == 0) return 1.0;
    return boost::math::gamma_p(static_cast<double>(count), cumulative_hazard);
}

double compute_clumped_count_chance(double cumulative_hazard, double shape, int count) {
    FLATTAIL_EXPECTS(cumulative_hazard >= 0.0 && shape > 0.0 && count >= 0);
    if (cumulative_hazard <= 0.0) return count == 0 ? 1.0 : 0.0;
    const double ratio = cumulative_hazard / shape;
    const double log_ways = boost::math::lgamma(count + shape) - std::lgamma(shape) -
                            std::lgamma(count + 1.0);
    return std::exp(log_ways - shape * std::log1p(ratio) +
                    count * (std::log(ratio) - std::log1p(ratio)));
}

double solve_clump_shape(double spread_ratio) {
    FLATTAIL_EXPECTS(spread_ratio > 1.0);
    const double variance = std::log(spread_ratio) * std::log(spread_ratio);
    // 1/s + 1/(2 s^2) < trigamma(s) < 1/s + 1/s^2 bracket the shape, and both solve
    // exactly.
    const double low = (1.0 + std::sqrt(1.0 + 2.0 * variance)) / (2.0 * variance);
    const double high = (1.0 + std::sqrt(1.0 + 4.0 * variance)) / (2.0 * variance);
    const auto excess = [&](double shape) {
        return boost::math::trigamma(shape) - variance;
    };
    std::uintmax_t tries = 100;
    const auto [left, right] = boost::math::tools::toms748_solve(
        excess, low * (1.0 - 1e-9), high * (1.0 + 1e-9),
        boost::math::tools::eps_tolerance<double>(48), tries);
    return 0.5 * (left + right);
}

}  // namespace flattail::physics
