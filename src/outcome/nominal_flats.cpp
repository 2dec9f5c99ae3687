#include "outcome/nominal_flats.h"

#include <algorithm>

#include "physics/flat_hazard.h"
#include "ride/roadside/repair.h"
#include "sampling/wheel_hazard.h"

namespace flattail::outcome {

namespace {

using sampling::FlatCause;
using sampling::kCauses;
using sampling::kLanes;
using sampling::kWheels;

void multiply(const sampling::DayBlock& days, InputId id, double* ratio) {
    if (!id.is_set()) return;
    const double* factor = days.of(id);
    for (int j = 0; j < kLanes; ++j) ratio[j] *= factor[j];
}

sampling::RollingWheel roll(const scenario::Wheel& wheel) {
    return {wheel.tyre, wheel.inner, wheel.wear_ratio, wheel.fitting_ratio};
}

}  // namespace

NominalFlats::NominalFlats(const scenario::Model& model, const sampling::RoadHazard& road,
                           std::uint64_t seed, const sampling::VectorMath& math)
    : model_(&model), road_(&road), seed_(seed), math_(&math) {}

void NominalFlats::look_at(const sampling::DayBlock& days) {
    days_ = &days;
    for (int w = 0; w < kWheels; ++w) {
        for (int c = 0; c < kCauses; ++c) {
            const auto cause = static_cast<FlatCause>(c);
            Lanes& mean = mean_[static_cast<std::size_t>(w)][static_cast<std::size_t>(c)];
            sampling::compute_reference_rates(*model_, days, w, cause, mean.data());
            for (double& expected : mean) expected *= road_->total_m(cause);
        }
    }
}

void NominalFlats::find_cut_ratio(const scenario::Wheel& wheel, double* ratio) const {
    std::fill(ratio, ratio + kLanes, 1.0);
    multiply(*days_, model_->tyres[static_cast<std::size_t>(wheel.tyre)].cut_ratio,
             ratio);
    multiply(*days_, wheel.wear_ratio, ratio);
    multiply(*days_, model_->inners[static_cast<std::size_t>(wheel.inner)].cut_ratio,
             ratio);
}

// The first lane's limit, moved with pressure and load as the bound of the points'
// heights moves it: one exponential per lane, and never above that bound.
void NominalFlats::find_pinch_ratio(const scenario::Setup& setup, int wheel,
                                    double* ratio) const {
    const physics::PinchLaw law;
    const scenario::Wheel& w = setup.wheels[static_cast<std::size_t>(wheel)];
    physics::PinchState state;
    state.pressure_pa = w.gauge_pa;
    state.width_m = model_->tyres[static_cast<std::size_t>(w.tyre)].width_m;
    state.load_n = sampling::compute_wheel_load_n(*model_, *days_, 0, setup, wheel);
    if (model_->inners[static_cast<std::size_t>(w.inner)].kind ==
        scenario::InnerKind::kSealant) {
        state.inner_limit_ratio = sampling::kTubelessPinchLimit;
    }
    const double limit = physics::compute_pinch_limit_ratio(law, state);
    const InputId gauge_error = model_->preparation.gauge_error_pa;
    const double* error = gauge_error.is_set() ? days_->of(gauge_error) : nullptr;
    const double* rider = days_->of(model_->rider.mass_kg);
    const double* bicycle = days_->of(model_->rider.bicycle_kg);
    const double* clothing = days_->of(model_->rider.clothing_kg);
    const double first_kg = rider[0] + bicycle[0] + clothing[0];
    for (int j = 0; j < kLanes; ++j) {
        const double firmer = 1.0 + (error != nullptr ? error[j] / w.gauge_pa : 0.0);
        const double heavier = (rider[j] + bicycle[j] + clothing[j]) / first_kg;
        ratio[j] = law.steepness * (1.0 - limit * std::max(firmer, 0.3) / heavier);
    }
    math_->exp(ratio, ratio);
}

// p <= -ln(1 - p): below the hazard, and without a logarithm.
void NominalFlats::find_fitting_ratio(const scenario::Wheel& wheel, double* ratio) const {
    const InputId id =
        model_->inners[static_cast<std::size_t>(wheel.inner)].fitting_fault;
    std::fill(ratio, ratio + kLanes,
              wheel.fitting_ratio / sampling::kReferenceFittingFaults);
    if (!id.is_set()) {
        std::fill(ratio, ratio + kLanes, 0.0);
        return;
    }
    const double* chance = days_->of(id);
    for (int j = 0; j < kLanes; ++j) ratio[j] *= std::min(chance[j], 0.999);
}

double NominalFlats::find_staying_open(const scenario::Wheel& wheel, FlatCause cause,
                                       int lane) const {
    return 1.0 - ride::find_sealant_chance(*model_, *days_, cause, lane, roll(wheel));
}

void NominalFlats::find_surplus(int setup, double* surplus) {
    const scenario::Setup& one = model_->setups[static_cast<std::size_t>(setup)];
    std::fill(surplus, surplus + kLanes, 0.0);
    for (std::size_t w = 0; w < kWheels; ++w) {
        auto& ratio = ratio_[w];
        find_cut_ratio(one.wheels[w], ratio[0].data());
        find_pinch_ratio(one, static_cast<int>(w), ratio[1].data());
        find_fitting_ratio(one.wheels[w], ratio[2].data());
        for (std::size_t c = 0; c < kCauses; ++c) {
            const auto cause = static_cast<FlatCause>(c);
            for (int j = 0; j < kLanes; ++j) {
                const auto lane = static_cast<std::size_t>(j);
                surplus[j] -= mean_[w][c][lane] * ratio[c][lane] *
                              find_staying_open(one.wheels[w], cause, j);
            }
        }
    }
    for (const sampling::FlatPoint& point : days_->points) {
        const auto c = static_cast<std::size_t>(point.cause);
        const scenario::Wheel& wheel = one.wheels[point.wheel];
        if (point.height >= ratio_[point.wheel][c][point.lane]) continue;
        if (ride::try_sealant(*model_, *days_, point, seed_, roll(wheel))) continue;
        surplus[point.lane] += days_->weight[point.lane];
    }
}

}  // namespace flattail::outcome
