// Riders away from their block, and what they leave behind.
#include <cstring>

#include "support/catch.h"
#include "support/model_builder.h"
#include "support/prepared_ride.h"

using namespace flattail;

namespace {

support::Results ride_latex(const scenario::Model& model,
                            const std::vector<sampling::FlatPoint>& points) {
    const support::PreparedRide prepared = support::prepare_ride(model);
    ride::BlockRider rider(prepared.plan());
    sampling::DayBlock days = prepared.days->make_block();
    prepared.days->fill(0, days);
    days.points = points;
    support::Results results;
    rider.ride(days, 1, ride::Solver::kFast, results);
    return results;
}

sampling::FlatPoint put_nail(double place_m) {
    sampling::FlatPoint point;
    point.place_m = place_m;
    point.height = 0.1;
    point.wheel = 1;
    return point;
}

}  // namespace

TEST_CASE("who takes a spare and then gives up leaves the day as it was without flats") {
    scenario::Model model = support::make_plain_model(30000.0);
    model.setups[1].kit.tubes = 1;
    const support::Results without = ride_latex(model, {});
    const support::Results with = ride_latex(model, {put_nail(5000.0), put_nail(5060.0)});
    REQUIRE(with[0].ending == ride::Ending::kNoSpare);
    CHECK(std::memcmp(&with[0].time_s, &without[0].time_s, sizeof(double)) == 0);
    // The twin: who finishes on the spare rolls on butyl and has stood still.
    const support::Results mended = ride_latex(model, {put_nail(5000.0)});
    REQUIRE(mended[0].ending == ride::Ending::kFinished);
    CHECK(mended[0].time_s > without[0].time_s + 300.0);
}

TEST_CASE("pacing looks at the wind of the race, not of the first forecast row") {
    scenario::Model alone = support::make_race_model(20000.0);
    alone.race.start_clock_s = 12 * 3600.0;
    scenario::Model later = alone;
    scenario::ForecastRow storm = alone.weather.rows[0];
    storm.clock_s = 5 * 3600.0;
    storm.wind_m_s = 15.0;
    scenario::ForecastRow evening = alone.weather.rows[0];
    evening.clock_s = 20 * 3600.0;
    later.weather.rows = {storm, alone.weather.rows[0], evening};
    const ride::Road expected = ride::build_road(alone), found = ride::build_road(later);
    REQUIRE(found.count() == expected.count());
    CHECK(found.terms[5].pace == Approx(expected.terms[5].pace).epsilon(1e-9));
    // The twin: a race in the storm is paced otherwise.
    later.race.start_clock_s = 4 * 3600.0;
    CHECK_FALSE(ride::build_road(later).terms[5].pace ==
                Approx(expected.terms[5].pace).epsilon(1e-6));
}
