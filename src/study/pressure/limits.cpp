#include "study/pressure/limits.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "chance/distribution.h"
#include "physics/constants.h"
#include "physics/flat_hazard.h"
#include "physics/rolling.h"
#include "ride/road.h"
#include "scenario/values/spec.h"

namespace flattail::study {

namespace {

// Most pressure on straight-side rims. Source: common practice after ETRTO.
constexpr double kHooklessMost_pa = 5e5;
// Pinch flats this much more often than in the reference state mark the lower end.
// Assumption: with the default rates one more flat in about 100 races.
constexpr double kManyPinches = 3.0;

std::optional<PressureBound> find_rim_most(const scenario::Rim& rim) {
    const bool is_hookless = rim.kind == scenario::RimKind::kHookless;
    if (is_hookless && rim.most_pa.value_or(kHooklessMost_pa) >= kHooklessMost_pa) {
        return PressureBound{kHooklessMost_pa, "what hookless rims may hold"};
    }
    if (!rim.most_pa) return std::nullopt;
    return PressureBound{*rim.most_pa, "the rim's limit"};
}

// The pressure at which an exponential severity passes the limit as often as that.
double find_pinch_pa(const scenario::Model& model, const scenario::Setup& setup,
                     int wheel) {
    const auto& w = setup.wheels[static_cast<std::size_t>(wheel)];
    const physics::PinchLaw law;
    physics::PinchState state;
    state.width_m = model.tyres[static_cast<std::size_t>(w.tyre)].width_m;
    const double mass_kg = ride::find_typical_rider(model).mass_kg + setup.carried_kg();
    state.load_n = mass_kg * w.load_share * physics::kStandardGravity;
    const double limit = 1.0 - std::log(kManyPinches) / law.steepness;
    const double limit_per_pa =
        physics::compute_pinch_limit_ratio(law, state) / state.pressure_pa;
    return limit / limit_per_pa;
}

}  // namespace

PumpLimits find_pump_limits(const scenario::Model& model, const scenario::Setup& setup,
                            int wheel) {
    const auto& w = setup.wheels[static_cast<std::size_t>(wheel)];
    const auto& tyre = model.tyres[static_cast<std::size_t>(w.tyre)];
    PumpLimits limits;
    limits.pinch = {find_pinch_pa(model, setup, wheel), "three times the pinch flats"};
    if (tyre.least_pa) limits.least = {*tyre.least_pa, "the tyre's least"};
    const auto rim = find_rim_most(setup.rim);
    if (!tyre.most_pa) {
        limits.missing.push_back(fmt::format(
            "[[tyre]], and below it, each on a line: name = \"{}\" | width = \"{} mm\" | "
            "most = \"... bar\" (as marked on its side)",
            tyre.name, scenario::write_number(tyre.width_m * 1000.0)));
    }
    if (!rim) {
        limits.missing.emplace_back(
            "above the first [[...]]: rim = { most = \"... bar\" } (the rim's marking)");
    }
    if (!limits.missing.empty()) return limits;
    limits.most = PressureBound{*tyre.most_pa, "the tyre's limit"};
    if (rim->gauge_pa < limits.most->gauge_pa) limits.most = rim;
    return limits;
}

double find_hottest_k(const scenario::Model& model) {
    double hottest_k = model.preparation.pumped_at_k.value_or(0.0);
    const Input& error = model.input(model.weather.temperature_error_k);
    double warmer_k = chance::quantile(error.knowledge, 0.95);
    if (error.deviation != Deviation::kNone) {
        warmer_k += chance::quantile(error.luck, 0.95);
    }
    for (const scenario::ForecastRow& row : model.weather.rows) {
        hottest_k = std::max(hottest_k, row.temperature_k + warmer_k);
    }
    return hottest_k;
}

PumpBounds find_pump_bounds(const Prepared& prepared, const PumpLimits& limits) {
    const scenario::Model& model = *prepared.model;
    const scenario::Preparation& preparation = model.preparation;
    const ride::Forecast& f = prepared.road->forecast;
    const double forecast_k = ride::read_forecast(
        f, f.temperature_k, model.race.start_clock_s - preparation.before_s);
    const double from_k = preparation.pumped_at_k.value_or(forecast_k);
    const double hottest_k = std::max(find_hottest_k(model), from_k);
    const double outside_pa = model.weather.pressure_pa;
    PumpBounds bounds;
    bounds.highest = *limits.most;
    bounds.highest.gauge_pa =
        (limits.most->gauge_pa + outside_pa) * from_k / hottest_k - outside_pa;
    bounds.lowest = limits.pinch;
    if (limits.least && limits.least->gauge_pa > bounds.lowest.gauge_pa) {
        bounds.lowest = *limits.least;
    }
    bounds.lowest.gauge_pa =
        std::max(bounds.lowest.gauge_pa, 1.1 * physics::kFlatWheelPressure);
    return bounds;
}

}  // namespace flattail::study
