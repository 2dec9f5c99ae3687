// What to pump: METHOD 16.
#include <algorithm>
#include <cmath>

#include "flattail/preparation.h"
#include "physics/inflation.h"
#include "scenario/leak.h"
#include "scenario/values/spec.h"
#include "study/pressure/limits.h"
#include "study/pressure/trace.h"

namespace flattail {

namespace {

using scenario::kPsi;
using scenario::Model;
using scenario::Setup;

constexpr double kHour_s = 3600.0;
// Where nobody says when the tyres are pumped. Assumption, common on race mornings.
constexpr double kUsualWait_s = 2.0 * kHour_s;
// The last pump of who has none on the morning: indoors the evening before. Assumption.
constexpr double kEveningClock_s = -4.0 * kHour_s;
constexpr double kIndoors_k = physics::kZeroCelsius + 20.0;
// Columns of the table, about the temperature expected at the pump.
constexpr double kColumns_k[] = {-8.0, -4.0, 0.0, 4.0};
// Nine readings in ten lie within. Source: common practice.
constexpr double kOwnGauge_pa = 2.0 * kPsi.si;
constexpr double kStrangersGauge_pa = 5.0 * kPsi.si;
// Less on a wet road, for grip. Common practice; nothing here is worked out from it.
constexpr double kWetLess_pa = 0.3e5;
// A bicycle in the sun against the air. Assumption.
constexpr double kSunLow_k = 15.0, kSunHigh_k = 20.0;
// Times of the curve: quarters of the wait, eighths of the ride.
constexpr int kWaitSteps = 4, kRideSteps = 8;

// One tyre between a pump and the start, every value at its middle.
struct Wait {
    const scenario::Leak* leak = nullptr;
    scenario::FillGas gas = scenario::FillGas::kAir;
    double before_s = 0.0, pump_k = 0.0, start_k = 0.0, outside_pa = 0.0;

    double reach_pa(double pumped_pa) const {
        const double absolute_pa = pumped_pa + outside_pa;
        const physics::GasMix mix =
            gas == scenario::FillGas::kAir
                ? physics::make_air(absolute_pa)
                : physics::make_pure(physics::Gas::kCarbonDioxide, absolute_pa);
        const physics::Stay stays[] = {{0.5 * before_s, pump_k, outside_pa},
                                       {0.5 * before_s, start_k, outside_pa}};
        const auto end = physics::follow_stays({mix, pump_k}, leak->wall, stays);
        return physics::compute_gauge_pressure_pa(end.mix, outside_pa);
    }

    // Leaking and warming are linear in what was pumped.
    double solve_pa(double wanted_pa) const {
        const double low = reach_pa(0.0), at_bar = reach_pa(1e5);
        return 1e5 * (wanted_pa - low) / (at_bar - low);
    }
};

PumpFigure make_figure(const Wait& wait, double wanted_pa, const WheelPump& wheel,
                       double hottest_k) {
    PumpFigure figure;
    figure.gauge_pa = wait.solve_pa(wanted_pa);
    if (wheel.least) {
        const double least_pa = wait.solve_pa(wheel.least->gauge_pa);
        figure.held_up = figure.gauge_pa < least_pa;
        figure.gauge_pa = std::max(figure.gauge_pa, least_pa);
    }
    const double hottest = std::max(hottest_k, wait.pump_k);
    const double most_pa =
        (wheel.most->gauge_pa + wait.outside_pa) * wait.pump_k / hottest -
        wait.outside_pa;
    figure.held_down = figure.gauge_pa > most_pa;
    figure.gauge_pa = std::min(figure.gauge_pa, most_pa);
    return figure;
}

void state_race(const study::Prepared& prepared, PumpPlan& plan) {
    const Model& model = *prepared.model;
    const ride::Forecast& f = prepared.road->forecast;
    plan.race_name = model.race.name;
    plan.rider_name = model.rider.name;
    plan.date = model.race.date;
    plan.invented = model.race.invented;
    plan.start_clock_s = model.race.start_clock_s;
    plan.start_k = ride::read_forecast(f, f.temperature_k, plan.start_clock_s);
    plan.pump_k = model.preparation.pumped_at_k.value_or(
        ride::read_forecast(f, f.temperature_k, plan.pump_clock_s));
    plan.hottest_k = study::find_hottest_k(model);
    const double middle_k =
        std::round(plan.pump_k - physics::kZeroCelsius) + physics::kZeroCelsius;
    for (const double step_k : kColumns_k)
        plan.temperatures_k.push_back(middle_k + step_k);
    plan.evening_clock_s = kEveningClock_s;
    plan.evening_k = kIndoors_k;
    plan.own_gauge_pa = kOwnGauge_pa;
    plan.strangers_gauge_pa = kStrangersGauge_pa;
    plan.wet_less_pa = kWetLess_pa;
}

// In the sun a tyre pumped in the shade reads more by its share of warmth.
void state_sun(PumpPlan& plan, double outside_pa) {
    const double absolute_pa = plan.setups.front().wheels.front().wanted_pa + outside_pa;
    plan.sun_low_pa = absolute_pa * kSunLow_k / plan.pump_k;
    plan.sun_high_pa = absolute_pa * kSunHigh_k / plan.pump_k;
}

std::vector<double> list_times(double before_s, double ride_s) {
    std::vector<double> times_s;
    for (int i = 0; i < kWaitSteps && before_s > 0.0; ++i) {
        times_s.push_back(-before_s * (kWaitSteps - i) / kWaitSteps);
    }
    for (int i = 0; i <= kRideSteps; ++i) times_s.push_back(ride_s * i / kRideSteps);
    return times_s;
}

LikelyPressure read_likely(const study::PressureTrace& trace, std::size_t time,
                           std::size_t wheel) {
    return {trace.read_pa(time, wheel, 0.5), trace.read_pa(time, wheel, 0.05),
            trace.read_pa(time, wheel, 0.95)};
}

// What does not depend on limits.
WheelPump describe_wheel(const Model& model, const Setup& setup, std::size_t w,
                         const Wait& planned) {
    const scenario::Wheel& wheel = setup.wheels[w];
    const auto& tyre = model.tyres[static_cast<std::size_t>(wheel.tyre)];
    WheelPump pump;
    pump.wheel = w == 0 ? "front" : "rear";
    pump.tyre = tyre.name;
    pump.inner = model.inners[static_cast<std::size_t>(wheel.inner)].name;
    pump.width_m = tyre.width_m;
    pump.stated_pa = wheel.gauge_pa;
    const bool at_start = model.preparation.before_s <= 0.0;
    pump.wanted_pa = at_start ? wheel.gauge_pa : planned.reach_pa(wheel.gauge_pa);
    return pump;
}

void add_figures(const PumpPlan& plan, const Model& model, const Setup& setup,
                 std::size_t w, Wait wait, WheelPump& wheel) {
    const double wet_pa = wheel.wanted_pa - plan.wet_less_pa;
    for (const double pump_k : plan.temperatures_k) {
        wait.pump_k = pump_k;
        wheel.dry.push_back(make_figure(wait, wheel.wanted_pa, wheel, plan.hottest_k));
        wheel.wet.push_back(make_figure(wait, wet_pa, wheel, plan.hottest_k));
    }
    wait.pump_k = plan.evening_k;
    wait.before_s = plan.start_clock_s - plan.evening_clock_s;
    wheel.evening = make_figure(wait, wheel.wanted_pa, wheel, plan.hottest_k);
    if (setup.kit.inflations() == 0) return;
    wheel.cartridge_pa = scenario::compute_cartridge_gauge_pa(
        model, setup, static_cast<int>(w), plan.start_k);
}

SetupPump plan_setup(const study::Prepared& prepared, const PumpPlan& plan,
                     const Setup& setup) {
    const Model& model = *prepared.model;
    const auto trace = study::trace_pressures(prepared, setup, plan.times_s);
    const std::size_t start = static_cast<std::size_t>(
        std::find(plan.times_s.begin(), plan.times_s.end(), 0.0) - plan.times_s.begin());
    SetupPump pump;
    pump.name = setup.name;
    pump.vetoed = setup.vetoed;
    if (setup.kit.inflations() > 0) {
        pump.cartridge_kg = setup.kit.cartridge_kg.back();
    }
    for (std::size_t w = 0; w < pump.wheels.size(); ++w) {
        const auto inner = static_cast<std::size_t>(setup.wheels[w].inner);
        const Wait wait{&model.inners[inner].leak,
                        model.preparation.gas,
                        plan.start_clock_s - plan.pump_clock_s,
                        plan.pump_k,
                        plan.start_k,
                        model.weather.pressure_pa};
        WheelPump& wheel = pump.wheels[w];
        wheel = describe_wheel(model, setup, w, wait);
        wheel.at_start = read_likely(trace, start, w);
        wheel.at_finish = read_likely(trace, plan.times_s.size() - 1, w);
        for (std::size_t t = 0; t < plan.times_s.size(); ++t) {
            wheel.on_the_way_pa.push_back(trace.read_pa(t, w, 0.5));
        }
        const auto limits = study::find_pump_limits(model, setup, static_cast<int>(w));
        wheel.most = limits.most;
        wheel.least = limits.least;
        wheel.pinch = limits.pinch;
        const bool at_start = model.preparation.before_s <= 0.0;
        const double from_k = at_start ? plan.start_k : plan.pump_k;
        wheel.hottest_pa = physics::compute_gauge_after_warming_pa(
            wheel.stated_pa, from_k, std::max(plan.hottest_k, from_k),
            model.weather.pressure_pa);
        for (const std::string& missing : limits.missing) {
            if (std::find(pump.missing.begin(), pump.missing.end(), missing) ==
                pump.missing.end()) {
                pump.missing.push_back(missing);
            }
        }
        if (limits.most) add_figures(plan, model, setup, w, wait, wheel);
    }
    return pump;
}

}  // namespace

PumpPlan plan_pumping(const Scenario& scenario, const StudyOptions& options) {
    PumpPlan plan;
    const Model& model = scenario.model();
    const study::Prepared prepared = study::prepare(model, options);
    plan.time_assumed = model.preparation.before_s <= 0.0;
    const double before_s = plan.time_assumed ? kUsualWait_s : model.preparation.before_s;
    plan.pump_clock_s = model.race.start_clock_s - before_s;
    state_race(prepared, plan);
    const double ride_s = study::find_typical_ride_s(prepared, model.decision.against);
    plan.finish_clock_s = plan.start_clock_s + ride_s;
    plan.times_s = list_times(model.preparation.before_s, ride_s);
    for (const Setup& setup : model.setups) {
        plan.setups.push_back(plan_setup(prepared, plan, setup));
    }
    state_sun(plan, model.weather.pressure_pa);
    return plan;
}

}  // namespace flattail
