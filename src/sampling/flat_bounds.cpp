// The height up to which points must be drawn on each day: the largest hazard ratio that
// any setup can reach there. Too high only costs time; too low would lose flats.
#include <algorithm>
#include <cmath>

#include "physics/constants.h"
#include "physics/flat_hazard.h"
#include "physics/rolling.h"
#include "sampling/flat_points.h"
#include "sampling/wheel_hazard.h"
#include "scenario/leak.h"

namespace flattail::sampling {

namespace {

// A share to spare below what leaks and cooling explain.
constexpr double kSoftenedShare = 0.93;
// Nobody is assumed to race longer than the course at this speed, or than the cutoff; who
// does misses some of the pinches of his last hours. Assumption.
constexpr double kSlowest_m_s = 5.0;

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

// The temperatures between pumping and finish, before the day's error.
struct Warmth {
    double pump_k = 0.0, coldest_k = 1e9, hottest_k = 0.0;
};

Warmth find_warmth(const scenario::Model& model) {
    Warmth warmth;
    for (const auto& row : model.weather.rows) {
        warmth.coldest_k = std::min(warmth.coldest_k, row.temperature_k);
        warmth.hottest_k = std::max(warmth.hottest_k, row.temperature_k);
    }
    warmth.pump_k = model.preparation.pumped_at_k.value_or(warmth.hottest_k);
    warmth.hottest_k = std::max(warmth.hottest_k, warmth.pump_k);
    return warmth;
}

double find_longest_race_s(const scenario::Model& model) {
    return model.race.cutoff_s.value_or(model.course->length_m / kSlowest_m_s);
}

// The largest share of a gas's excess that leaks in a second, on any day of the block.
struct FastestLeak {
    double air_per_s = 0.0, carbon_dioxide_per_s = 0.0;
};

FastestLeak find_fastest_leak(const scenario::Leak& leak, const DayBlock& block,
                              double hottest_k) {
    const auto most = [&](InputId id) {
        const double* lost_pa = find_values(block, id);
        return lost_pa ? *std::max_element(lost_pa, lost_pa + kLanes) : 0.0;
    };
    physics::WallLeak wall = leak.wall;
    wall.rate_per_s = scenario::LeakRates(leak).at(
        {most(leak.air_loss_pa), most(leak.carbon_dioxide_loss_pa)});
    const physics::PerGas rate = physics::compute_leak_rates_per_s(wall, hottest_k);
    FastestLeak fastest;
    for (std::size_t g = 0; g < physics::kGasCount; ++g) {
        const bool is_air = g != physics::index_of(physics::Gas::kCarbonDioxide);
        if (is_air) fastest.air_per_s += physics::kAirShares[g] * rate[g];
        if (!is_air) fastest.carbon_dioxide_per_s = rate[g];
    }
    return fastest;
}

}  // namespace

// Below every gauge pressure that a wheel of this setup reaches with air in it, with
// carbon dioxide in it, or filled anew by a cartridge. Leaks: 1 - exp(-x) <= x.
void FlatPoints::bound_gauge_pa(const DayBlock& block, const scenario::Setup& setup,
                                int wheel, double* gauge_pa) const {
    const auto& w = setup.wheels[static_cast<std::size_t>(wheel)];
    const Warmth warmth = find_warmth(*model_);
    const double* error_k = block.of(model_->weather.temperature_error_k);
    const double* error_pa = find_values(block, model_->preparation.gauge_error_pa);
    const double hottest_k =
        warmth.hottest_k + *std::max_element(error_k, error_k + kLanes);
    const double race_s = find_longest_race_s(*model_);
    const double waiting_s = model_->preparation.before_s + race_s;
    const auto share_left = [&](int inner, scenario::FillGas gas, double time_s) {
        const auto& leak = model_->inners[static_cast<std::size_t>(inner)].leak;
        const FastestLeak fastest = find_fastest_leak(leak, block, hottest_k);
        const double per_s = gas == scenario::FillGas::kAir
                                 ? fastest.air_per_s
                                 : fastest.carbon_dioxide_per_s;
        const double warmer = hottest_k / warmth.pump_k;
        return std::max(1.0 - per_s * time_s * warmer, 0.0);
    };
    const double outside_pa = model_->weather.pressure_pa;
    const bool is_air = model_->preparation.gas == scenario::FillGas::kAir;
    const double left = share_left(w.inner, model_->preparation.gas, waiting_s);
    const int spare = setup.kit.spare_inner >= 0 ? setup.kit.spare_inner : w.inner;
    const double spare_left =
        share_left(spare, scenario::FillGas::kCarbonDioxide, race_s);
    const bool has_cartridge = setup.kit.inflations() > 0;
    const double given_pa = has_cartridge
                                ? scenario::compute_cartridge_gauge_pa(
                                      *model_, setup, wheel, warmth.coldest_k - 10.0)
                                : w.gauge_pa;
    const double by_hand_pa = scenario::find_softest_by_hand_pa(*model_, setup, w);
    for (int j = 0; j < kLanes; ++j) {
        const double stated = w.gauge_pa + (error_pa != nullptr ? error_pa[j] : 0.0);
        const double cooled =
            (warmth.coldest_k + error_k[j]) / (warmth.pump_k + error_k[j]);
        const double base = is_air ? outside_pa : 0.0;  // what does not leak away
        const double held = base + (stated + outside_pa - base) * left;
        const double refilled =
            (std::min(stated, given_pa) + outside_pa) * spare_left - outside_pa;
        gauge_pa[j] = std::min({kSoftenedShare * stated, held * cooled - outside_pa,
                                has_cartridge ? refilled : stated});
        gauge_pa[j] = std::min(gauge_pa[j], kSoftenedShare * by_hand_pa);
        gauge_pa[j] = std::max(gauge_pa[j], physics::kFlatWheelPressure);
    }
}

FlatPoints::FlatPoints(const scenario::Model& model, const RoadHazard& road,
                       std::uint64_t seed, std::uint64_t grouped_days,
                       const VectorMath& math)
    : model_(&model),
      road_(&road),
      seed_(seed),
      grouped_days_(grouped_days),
      math_(&math) {
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

// One exponential per lane, of the lowest limit that any setup can reach on that day.
void FlatPoints::bound_pinches(const DayBlock& block, int wheel, double* top) const {
    const physics::PinchLaw law;
    double lowest[kLanes];
    std::fill(lowest, lowest + kLanes, 1e9);
    const double* rider = block.of(model_->rider.mass_kg);
    const double* bicycle = block.of(model_->rider.bicycle_kg);
    const double* clothing = block.of(model_->rider.clothing_kg);
    const double first_kg = rider[0] + bicycle[0] + clothing[0];
    for (const auto& setup : model_->setups) {
        const auto& w = setup.wheels[static_cast<std::size_t>(wheel)];
        double gauge_pa[kLanes];
        bound_gauge_pa(block, setup, wheel, gauge_pa);
        physics::PinchState state;
        state.width_m = model_->tyres[static_cast<std::size_t>(w.tyre)].width_m;
        state.load_n = compute_wheel_load_n(*model_, block, 0, setup, wheel);
        // A spare tube may stand in for sealant later, so sealant is bounded as a tube.
        const double limit_per_pa =
            physics::compute_pinch_limit_ratio(law, state) / state.pressure_pa;
        for (int j = 0; j < kLanes; ++j) {
            const double heavier = (rider[j] + bicycle[j] + clothing[j]) / first_kg;
            lowest[j] = std::min(lowest[j], limit_per_pa * gauge_pa[j] / heavier);
        }
    }
    double exponent[kLanes];
    for (int j = 0; j < kLanes; ++j) exponent[j] = law.steepness * (1.0 - lowest[j]);
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
            const double p = std::min(chance[j], 0.999);
            // -ln(1 - p) <= p / (1 - p): above, and without a logarithm.
            top[j] = std::max(top[j],
                              p / (1.0 - p) * w.fitting_ratio / kReferenceFittingFaults);
        }
    }
}

void FlatPoints::compute_rates(const DayBlock& block, Rates& rates) const {
    for (int process = 0; process < kProcesses; ++process) {
        const int wheel = process / kCauses;
        const auto cause = static_cast<FlatCause>(process % kCauses);
        double* mean = rates.mean[process];
        compute_reference_rates(*model_, block, wheel, cause, mean);
        for (int j = 0; j < kLanes; ++j) mean[j] *= road_->total_m(cause);
        double* top = rates.top[process];
        if (cause == FlatCause::kCut) bound_cuts(block, wheel, top);
        if (cause == FlatCause::kPinch) bound_pinches(block, wheel, top);
        if (cause == FlatCause::kFitting) bound_fitting(block, wheel, top);
    }
}

}  // namespace flattail::sampling
