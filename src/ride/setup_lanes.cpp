#include "ride/setup_lanes.h"

#include <algorithm>
#include <cmath>

#include "physics/air.h"
#include "physics/constants.h"
#include "physics/rolling.h"
#include "ride/lone_step.h"
#include "ride/wheel_gas.h"

namespace flattail::ride {

namespace {

// However good the tyre, some of it is always lost. Keeps wild draws of knowledge
// physical.
constexpr double kLeastHysteresis = 0.0005;

// Hysteresis is this share of the rolling coefficient on a smooth road (METHOD 4.5).
double find_hysteresis_share() {
    return physics::kDefaultHysteresisCrr /
           physics::find_default_crr(physics::Surface::kSmooth);
}

// The clock of the wave, and what the day's swim and transition take.
void set_start(const scenario::Model& model, const sampling::DayBlock& days,
               LaneTerms& t) {
    const scenario::Race& race = model.race;
    for (int j = 0; j < kLanes; ++j) {
        t.start_clock_s[j] = race.swim_s.is_set()
                                 ? race.wave_clock_s + days.of(race.swim_s)[j] +
                                       days.of(race.transition_s)[j]
                                 : race.start_clock_s;
    }
}

void set_day(const scenario::Model& model, const sampling::DayBlock& days, LaneTerms& t) {
    const scenario::Rider& rider = model.rider;
    const scenario::Weather& weather = model.weather;
    const double* power = days.of(rider.power_w);
    const double* loss = days.of(rider.bad_day_loss);
    const double* fade = days.of(rider.fade_per_h);
    const double* factor = days.of(weather.wind_factor);
    const double* shelter = days.of(model.road.shelter_ratio);
    const double* turn = days.of(weather.direction_error_rad);
    const double* warmer = days.of(weather.temperature_error_k);
    const double* rain = days.of(weather.rain);
    const double* wet = days.of(model.road.wet_crr_ratio);
    for (int j = 0; j < kLanes; ++j) {
        const double bad = days.bad_day[static_cast<std::size_t>(j)];
        t.power_w[j] = power[j] * rider.drivetrain_efficiency * (1.0 - bad * loss[j]);
        t.fade_per_s[j] = fade[j] / 3600.0;
        const double speed = factor[j] * shelter[j];
        const base::lane::SinCos turned =
            base::lane::sin_cos_turns(turn[j] / base::lane::kTwoPi);
        t.wind_east[j] = speed * turned.cos;
        t.wind_north[j] = speed * turned.sin;
        t.temperature_error_k[j] = warmer[j];
        t.rain_level[j] = rain[j];
        t.wet_rolling[j] = wet[j];
    }
}

// rho T is the same at any temperature as long as pressure and moisture stay.
double compute_density_times_temperature(const scenario::Weather& weather) {
    physics::AirState air;
    air.temperature_k = weather.rows.front().temperature_k;
    air.pressure_pa = weather.pressure_pa;
    air.relative_humidity = weather.humidity;
    return physics::compute_air_density_kg_m3(air) * air.temperature_k;
}

void set_body(const scenario::Model& model, const scenario::Setup& setup,
              const sampling::DayBlock& days, LaneTerms& t, LaneBlock& b) {
    const double* rider = days.of(model.rider.mass_kg);
    const double* bicycle = days.of(model.rider.bicycle_kg);
    const double* clothing = days.of(model.rider.clothing_kg);
    const double* cda = days.of(model.rider.drag_area_m2);
    const double density_k = compute_density_times_temperature(model.weather);
    for (int j = 0; j < kLanes; ++j) {
        const double mass = rider[j] + bicycle[j] + clothing[j] + setup.carried_kg();
        const double half = 0.5 / (mass + model.rider.wheel_inertia_kg);
        t.inverse_mass[j] = half;
        t.drag_k[j] = 0.5 * density_k * cda[j] * half;
        b.weight[j] = mass * physics::kStandardGravity * half;
        b.bearing0[j] = kBearingForceN * half;
        b.bearing1[j] = kBearingForcePerSpeed * half;
        b.speed[j] = 0.0;
        b.time[j] = 0.0;
    }
}

void set_reference_pressures(const scenario::Model& model, const scenario::Setup& setup,
                             LaneTerms& t) {
    for (std::size_t w = 0; w < kWheelCount; ++w) {
        const auto tyre = static_cast<std::size_t>(setup.wheels[w].tyre);
        for (int j = 0; j < kLanes; ++j) {
            t.reference_pa[w][j] = model.tyres[tyre].reference_pa;
        }
    }
}

double value_of(const sampling::DayBlock& days, InputId id, int lane) {
    return id.is_set() ? days.of(id)[lane] : 0.0;
}

}  // namespace

void set_wheel_rolling(const scenario::Model& model, const scenario::Setup& setup,
                       int wheel, int inner, const sampling::DayBlock& days,
                       LaneRange range, LaneTerms& t) {
    const auto w = static_cast<std::size_t>(wheel);
    const scenario::Wheel& as_started = setup.wheels[w];
    const auto& tyre = model.tyres[static_cast<std::size_t>(as_started.tyre)];
    const auto& tube = model.inners[static_cast<std::size_t>(inner)];
    const double* crr[kSurfaceClasses];
    for (std::size_t c = 0; c < kSurfaceClasses; ++c) crr[c] = days.of(model.road.crr[c]);
    const double share = find_hysteresis_share();
    for (int j = range.begin; j < range.end; ++j) {
        const double race = crr[0][j] * share;
        const double saved = value_of(days, setup.rolling_saved_crr, j);
        const double own = race + value_of(days, tyre.crr_change, j) +
                           value_of(days, tube.crr_change, j) - saved;
        t.hysteresis[w][j] = as_started.load_share * std::max(own, kLeastHysteresis);
        for (std::size_t c = 0; c < kSurfaceClasses; ++c) {
            t.roughness[w][c][j] =
                as_started.load_share * std::max(crr[c][j] - race, 0.0);
        }
    }
}

void set_lanes(const scenario::Model& model, const Road& road, const Traits& traits,
               const sampling::DayBlock& days, LaneTerms& terms, LaneBlock& block) {
    set_start(model, days, terms);
    set_day(model, days, terms);
    set_body(model, *traits.mass, days, terms, block);
    set_reference_pressures(model, *traits.rolling, terms);
    pump_wheels(model, road, traits, days, terms);
    for (int w = 0; w < kWheelCount; ++w) {
        const int inner = traits.rolling->wheels[static_cast<std::size_t>(w)].inner;
        set_wheel_rolling(model, *traits.rolling, w, inner, days, LaneRange{}, terms);
    }
}

}  // namespace flattail::ride
