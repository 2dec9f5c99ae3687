// A ride begins when its own day's swim and transition are over.
#include <cstring>

#include "chance/make_distribution.h"
#include "support/catch.h"
#include "support/model_builder.h"
#include "support/prepared_ride.h"

using namespace flattail;

namespace {

constexpr double kWave_s = 7 * 3600.0;

// The wind rises all morning: the later the start, the slower the ride.
scenario::Model make_windy_morning() {
    scenario::Model model = support::make_race_model(20000.0);
    scenario::ForecastRow dawn = model.weather.rows[0], noon = dawn;
    dawn.clock_s = 6 * 3600.0;
    dawn.wind_m_s = 0.5;
    noon.clock_s = 12 * 3600.0;
    noon.wind_m_s = 12.0;
    noon.temperature_k += 10.0;
    model.weather.rows = {dawn, noon};
    return model;
}

scenario::Model add_swim(scenario::Model model) {
    model.race.wave_clock_s = kWave_s;
    model.race.swim_s =
        support::add_lucky(model, "race.swim", 2400.0, Deviation::kMultiply,
                           chance::make_lognormal_median_spread(1.0, 1.3));
    model.race.transition_s = support::add_certain(model, "race.transition", 180.0);
    model.race.start_clock_s = kWave_s + 2580.0;
    return model;
}

}  // namespace

TEST_CASE("each day is the day that starts when its own swim is over") {
    const scenario::Model swims = add_swim(make_windy_morning());
    const support::PreparedRide prepared = support::prepare_ride(swims);
    sampling::DayBlock days = prepared.days->make_block();
    prepared.days->fill(0, days);
    ride::BlockRider rider(prepared.plan());
    support::Results found, expected;
    rider.ride(days, 0, ride::Solver::kFast, found);
    for (const std::size_t lane : {0U, 17U, 63U}) {
        scenario::Model fixed = swims;
        fixed.race.start_clock_s = kWave_s + days.of(swims.race.swim_s)[lane] + 180.0;
        fixed.race.swim_s = fixed.race.transition_s = InputId{};
        ride::RidePlan plan = prepared.plan();
        plan.model = &fixed;
        ride::BlockRider(plan).ride(days, 0, ride::Solver::kFast, expected);
        CHECK(std::memcmp(&found[lane].time_s, &expected[lane].time_s, sizeof(double)) ==
              0);
        // The twin: another lane's swim is another day.
        const std::size_t other = lane == 17U ? 0U : 17U;
        CHECK(found[other].time_s != expected[other].time_s);
    }
}
