// The height up to which points must be drawn on each day: the largest hazard ratio that
// any setup can reach there. Too high only costs time; too low would lose flats.
#include <algorithm>
#include <cmath>

#include "physics/constants.h"
#include "physics/flat_hazard.h"
#include "sampling/flat_points.h"
#include "sampling/wheel_hazard.h"

namespace flattail::sampling {

namespace {

// Pressure may fall below its start by cooling and leaks, and a refilled tyre may stay
// softer.
constexpr double kSoftenedShare = 0.93;

const double* find_values(const DayBlock& block, InputId id) {
    return id.is_set() ? block.of(id) : nullptr;
}

void multiply(double* out, const double* factor) {
    if (factor == nullptr) return;
    for (int j = 0; j < kLanes; ++j) out[j] *= factor[j];
}

void raise(double* top, const double* value) {
    for (int j = 0; j < kLanes; ++j) top[j] = std::max(top[j], value[j]);
}

}  // namespace

FlatPoints::FlatPoints(const scenario::Model& model, const RoadHazard& road,
                       std::uint64_t seed, bool stratified, const VectorMath& math)
    : model_(&model), road_(&road), seed_(seed), stratified_(stratified), math_(&math) {
    for (const auto& row : model.weather.rows) may_rain_ |= row.rain_chance > 0.0;
}

void FlatPoints::bound_cuts(const DayBlock& block, int wheel, double* top) const {
    std::fill(top, top + kLanes, 0.0);
    for (const auto& setup : model_->setups) {
        const auto& w = setup.wheels[static_cast<std::size_t>(wheel)];
        const auto& tyre = model_->tyres[static_cast<std::size_t>(w.tyre)];
        const auto& inner = model_->inners[static_cast<std::size_t>(w.inner)];
        double ratio[kLanes];
        std::fill(ratio, ratio + kLanes, 1.0);
        multiply(ratio, find_values(block, tyre.cut_ratio));
        multiply(ratio, find_values(block, w.wear_ratio));
        raise(top, ratio);  // the same tyre with a butyl spare in it
        multiply(ratio, find_values(block, inner.cut_ratio));
        raise(top, ratio);
    }
    const double* wet = find_values(block, model_->flats.wet_ratio);
    if (!may_rain_ || wet == nullptr) return;
    for (int j = 0; j < kLanes; ++j) top[j] *= std::max(wet[j], 1.0);
}

// One exponential per lane: the wheel with the lowest limit on an ordinary day has it on
// all, and the limit moves with pressure and load as the law's exponents say.
void FlatPoints::bound_pinches(const DayBlock& block, int wheel, double* top) const {
    const physics::PinchLaw law;
    double lowest = 1e9, gauge = 5e5;
    for (const auto& setup : model_->setups) {
        const auto& w = setup.wheels[static_cast<std::size_t>(wheel)];
        physics::PinchState state;
        state.pressure_pa = w.gauge_pa * kSoftenedShare;
        state.width_m = model_->tyres[static_cast<std::size_t>(w.tyre)].width_m;
        state.load_n = compute_wheel_load_n(*model_, block, 0, setup, wheel);
        // A spare tube may stand in for sealant later, so sealant is bounded as a tube.
        const double limit = physics::compute_pinch_limit_ratio(law, state);
        if (limit >= lowest) continue;
        lowest = limit;
        gauge = w.gauge_pa;
    }
    const double* error = find_values(block, model_->preparation.gauge_error_pa);
    const double* rider = block.of(model_->rider.mass_kg);
    const double* bicycle = block.of(model_->rider.bicycle_kg);
    const double* clothing = block.of(model_->rider.clothing_kg);
    const double first_kg = rider[0] + bicycle[0] + clothing[0];
    double exponent[kLanes];
    for (int j = 0; j < kLanes; ++j) {
        const double firmer = 1.0 + (error != nullptr ? error[j] / gauge : 0.0);
        const double heavier = (rider[j] + bicycle[j] + clothing[j]) / first_kg;
        exponent[j] = law.steepness * (1.0 - lowest * std::max(firmer, 0.3) / heavier);
    }
    math_->exp(exponent, top);
}

void FlatPoints::bound_fitting(const DayBlock& block, int wheel, double* top) const {
    std::fill(top, top + kLanes, 0.0);
    for (const auto& setup : model_->setups) {
        const auto& w = setup.wheels[static_cast<std::size_t>(wheel)];
        const auto& inner = model_->inners[static_cast<std::size_t>(w.inner)];
        const double* chance = find_values(block, inner.fitting_fault);
        if (chance == nullptr) continue;
        for (int j = 0; j < kLanes; ++j) {
            const double p = std::min(chance[j] * w.fitting_ratio, 0.999);
            // -ln(1 - p) <= p / (1 - p): above, and without a logarithm.
            top[j] = std::max(top[j], p / (1.0 - p) / kReferenceFittingFaults);
        }
    }
}

void FlatPoints::compute_rates(const DayBlock& block, Rates& rates) const {
    for (int process = 0; process < kProcesses; ++process) {
        const int wheel = process / kCauses;
        const auto cause = static_cast<FlatCause>(process % kCauses);
        double* mean = rates.mean[process];
        compute_reference_rates(*model_, block, wheel, cause, road_->length_m(), mean);
        for (int j = 0; j < kLanes; ++j) mean[j] *= road_->total_m(cause);
        double* top = rates.top[process];
        if (cause == FlatCause::kCut) bound_cuts(block, wheel, top);
        if (cause == FlatCause::kPinch) bound_pinches(block, wheel, top);
        if (cause == FlatCause::kFitting) bound_fitting(block, wheel, top);
    }
}

}  // namespace flattail::sampling
