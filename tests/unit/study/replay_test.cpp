// A ride told again is the ride of the study.
#include "flattail/replay.h"

#include <cmath>

#include "scenario/tables/read_scenario.h"
#include "support/catch.h"

using namespace flattail;

namespace {

// A short race on which things go wrong often. Invented numbers.
Scenario read_rough_race() {
    return scenario::read_scenario_text(R"(
race = { course = { distance = "20 km", climb = "150 m" }, cutoff = "1:10:00" }
rider = { mass = "70 kg", power = "200 W" }
weather = { temperature = "16 C", wind = "20 km/h", from = "W", rain = "40 %" }
kit = ["tube", "cartridge 16 g", "cartridge 16 g"]
[flats]
training = "1 per 40 km"
slow_share = "50 %"
[[setup]]
name = "Butyl"
tyre = "race 28 mm"
inner = "butyl"
pressure = "70 psi"
[[setup]]
name = "Tubeless"
like = "Butyl"
inner = "tubeless"
kit = ["tube", "cartridge 16 g", "plug", "sealant can"]
)",
                                        "rough.toml");
}

bool is_same(double a, double b) {
    return std::isfinite(a) ? a == b : std::isfinite(a) == std::isfinite(b);
}

}  // namespace

TEST_CASE("a replayed ride is its row of the study, to the bit") {
    const Scenario scenario = read_rough_race();
    for (const DrawKind draw : {DrawKind::kStratified, DrawKind::kPlain}) {
        StudyOptions options;
        options.races = 120;  // the last 56 come as they come
        options.seed = 5;
        options.draw = draw;
        options.keep_days = true;
        const Findings found = run_study(scenario, options);
        int unfinished = 0, stopped = 0;
        for (std::size_t s = 0; s < 2; ++s) {
            for (std::size_t day = 0; day < 120; ++day) {
                const DayRide& row = found.days.rides[s][day];
                const Replay told = replay_race(
                    scenario,
                    {static_cast<std::int64_t>(day), found.setups[s].name, options});
                CAPTURE(s, day);
                REQUIRE(is_same(told.finish_s, row.finish_s));
                REQUIRE(told.ending == row.ending);
                REQUIRE(told.flats == row.flats);
                REQUIRE(told.lost_s == row.lost_s);
                REQUIRE((row.flats == 0 || !told.events.empty()));
                unfinished += std::isfinite(row.finish_s) ? 0 : 1;
                stopped += row.flats > 0 ? 1 : 0;
            }
        }
        CHECK(unfinished > 5);
        CHECK(stopped > 40);
    }
    // The twin: another seed is another day.
    ReplayRequest other{3, "Butyl", {}};
    const double here_s = replay_race(scenario, other).finish_s;
    other.study.seed = 2;
    CHECK_FALSE(is_same(replay_race(scenario, other).finish_s, here_s));
}

TEST_CASE("a replay ends at the line and says what happened") {
    const Scenario scenario = read_rough_race();
    const Replay told = replay_race(scenario, {0, "butyl", {}});
    REQUIRE(told.points.size() > 100);
    if (std::isfinite(told.finish_s)) {
        CHECK(told.points.back().time_s == told.finish_s);
        CHECK(told.points.back().place_m == Approx(20e3).epsilon(1e-6));
    }
    CHECK(told.setup == "Butyl");
    for (const ReplayEvent& event : told.events) CHECK_FALSE(event.words.empty());
}

TEST_CASE("a setup or a day that no study has is refused") {
    const Scenario scenario = read_rough_race();
    CHECK_THROWS_AS(replay_race(scenario, {0, "Latex", {}}), InvalidInput);
    CHECK_THROWS_AS(replay_race(scenario, {-1, "Butyl", {}}), InvalidInput);
    CHECK_THROWS_AS(replay_race(scenario, {200'000'000, "Butyl", {}}), InvalidInput);
}
