#include "sampling/wheel_hazard.h"

#include <algorithm>
#include <cmath>

#include "physics/constants.h"
#include "physics/flat_hazard.h"

namespace flattail::sampling {

namespace {

double value_of(const DayBlock& days, InputId id, int lane, double otherwise) {
    return id.is_set() ? days.of(id)[lane] : otherwise;
}

double compute_cut(const scenario::Model& model, const DayBlock& days, int lane,
                   const RollingWheel& wheel, double wet) {
    const auto& tyre = model.tyres[static_cast<std::size_t>(wheel.tyre)];
    const auto& inner = model.inners[static_cast<std::size_t>(wheel.inner)];
    physics::CutFactors factors;
    factors.race = 1.0;  // in the reference already
    factors.wet = 1.0 + wet * (value_of(days, model.flats.wet_ratio, lane, 1.0) - 1.0);
    factors.tyre = value_of(days, tyre.cut_ratio, lane, 1.0);
    factors.wear = value_of(days, wheel.wear_ratio, lane, 1.0);
    factors.inner = value_of(days, inner.cut_ratio, lane, 1.0);
    return physics::compute_cut_ratio(factors);
}

double compute_pinch(const scenario::Model& model, const RollingWheel& wheel,
                     const WheelMoment& moment) {
    const auto& tyre = model.tyres[static_cast<std::size_t>(wheel.tyre)];
    const auto& inner = model.inners[static_cast<std::size_t>(wheel.inner)];
    physics::PinchState state;
    state.pressure_pa = moment.gauge_pa;
    state.width_m = tyre.width_m;
    state.load_n = moment.load_n;
    if (inner.kind == scenario::InnerKind::kSealant) {
        state.inner_limit_ratio = kTubelessPinchLimit;
    }
    return physics::compute_pinch_ratio({}, state);
}

double compute_fitting(const scenario::Model& model, const DayBlock& days, int lane,
                       const RollingWheel& wheel) {
    const auto& inner = model.inners[static_cast<std::size_t>(wheel.inner)];
    const double chance = value_of(days, inner.fitting_fault, lane, 0.0);
    return -std::log1p(-std::min(chance, 0.999)) * wheel.fitting_ratio /
           kReferenceFittingFaults;
}

}  // namespace

double compute_hazard_ratio(const scenario::Model& model, const DayBlock& days, int lane,
                            const RollingWheel& wheel, FlatCause cause,
                            const WheelMoment& moment) {
    switch (cause) {
        case FlatCause::kCut:
            return compute_cut(model, days, lane, wheel, moment.wet);
        case FlatCause::kPinch:
            return compute_pinch(model, wheel, moment);
        case FlatCause::kFitting:
            return compute_fitting(model, days, lane, wheel);
    }
    return 0.0;
}

void compute_reference_rates(const scenario::Model& model, const DayBlock& days,
                             int wheel, FlatCause cause, double* out) {
    if (cause == FlatCause::kFitting) {
        std::fill(out, out + kLanes,
                  kReferenceFittingFaults / physics::kFittingFadeLength);
        return;
    }
    const auto& flats = model.flats;
    const double* training = days.of(flats.training_per_m);
    const double* race = days.of(flats.race_ratio);
    const double* clump = days.of(flats.day_factor);
    const double* rear = days.of(flats.rear_share);
    const double* pinch = days.of(flats.pinch_share);
    for (int j = 0; j < kLanes; ++j) {
        const double side = wheel == 1 ? rear[j] : 1.0 - rear[j];
        const double part = cause == FlatCause::kPinch ? pinch[j] : 1.0 - pinch[j];
        out[j] = training[j] * race[j] * clump[j] * side * part;
    }
}

double compute_wheel_load_n(const scenario::Model& model, const DayBlock& days, int lane,
                            const scenario::Setup& setup, int wheel) {
    const double mass = days.of(model.rider.mass_kg)[lane] +
                        days.of(model.rider.bicycle_kg)[lane] +
                        days.of(model.rider.clothing_kg)[lane] + setup.carried_kg();
    const double share = setup.wheels[static_cast<std::size_t>(wheel)].load_share;
    return mass * share * physics::kStandardGravity;
}

}  // namespace flattail::sampling
