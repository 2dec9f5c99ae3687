// Values that go together: rows of a file, and correlations.
#include <cmath>

#include "chance/distribution.h"
#include "sampling/day_plan.h"
#include "scenario_texts.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::scenario;

namespace {

const std::string kRows =
    std::string(FLATTAIL_SOURCE_DIR) + "/tests/unit/scenario/rows.csv";

Scenario read(const std::vector<std::string>& settings, const std::string& more = "") {
    return read_smallest(settings, more);
}

std::string say_rows(const std::string& key, const std::string& extra = "") {
    return key + " = { samples = \"" + kRows + "\"" + extra + " }";
}

}  // namespace

TEST_CASE("columns are found by full name or key and share one address") {
    const Scenario scenario = read(
        {say_rows("rider.power", ", kind = \"not known\""), say_rows("rider.bicycle")});
    const Input& power = find_input(scenario.model(), "rider.power");
    const Input& bicycle = find_input(scenario.model(), "rider.bicycle");
    CHECK(power.knowledge.shape == Shape::kSamples);
    CHECK(power.knowledge.table == std::vector<double>{190, 200, 210});
    CHECK(bicycle.knowledge.table == std::vector<double>{9.1, 9.4, 9.9});
    CHECK_FALSE(power.draw_name.empty());
    CHECK(power.draw_name == bicycle.draw_name);
    // Power keeps its ordinary luck from day to day.
    CHECK(power.deviation == Deviation::kMultiply);
}

TEST_CASE("rows that change each day move about their middle") {
    const Scenario scenario = read({say_rows("weather.temperature")});
    const Model& model = scenario.model();
    const Input& error = model.input(model.weather.temperature_error_k);
    CHECK(model.weather.rows.front().temperature_k == Approx(16 + 273.15));
    CHECK(error.deviation == Deviation::kAdd);
    REQUIRE(error.luck.table.size() == 3);
    CHECK(error.luck.table[0] == Approx(-2.0));
    CHECK(error.luck.table[2] == Approx(3.0));
}

TEST_CASE("a drag area from rows is not tied to the power of an expected split") {
    const std::string base = R"toml(
[race]
course = { distance = "40 km" }
[rider]
mass = "70 kg"
expected_split = "1:10:00"
)toml";
    const std::string setup = R"toml(
[[setup]]
name = "Butyl"
tyre = "race 28 mm"
inner = "butyl"
pressure = "70 psi"
)toml";
    const auto count = [&](const std::string& area) {
        return read_scenario_text(base + area + setup, "split.toml")
            .model()
            .correlations.size();
    };
    CHECK(count("drag_area = { samples = \"" + kRows + "\", column = \"area\" }\n") == 0);
    // The twin: a range of its own is tied.
    CHECK(count("drag_area = { low = \"0.25 m2\", high = \"0.29 m2\" }\n") == 1);
}

TEST_CASE("the start and the cutoffs are read by the clock and along the course") {
    const Scenario scenario = read_scenario_text(R"toml(
[race]
course = { distance = "90 km" }
wave = "2026-06-14 07:10"
swim = "34 min"
transition = "3 min"
cutoff = ["12:30", { at = "45 km", within = "2:10:00" }, { by = "11:45" }]
[rider]
mass = "70 kg"
power = "200 W"
[[setup]]
name = "Butyl"
tyre = "race 28 mm"
inner = "butyl"
pressure = "70 psi"
)toml",
                                                 "clock.toml");
    const Race& race = scenario.model().race;
    const double start_s = (7 * 60 + 10 + 37) * 60.0;
    CHECK(race.start_clock_s == Approx(start_s));
    CHECK(race.date == "2026-06-14");
    REQUIRE(race.cutoffs.size() == 3);
    CHECK(race.cutoffs[0].text == "km 45 within 2:10:00");
    CHECK(race.cutoffs[1].text == "finish by 12:30");
    REQUIRE(race.cutoff_s);
    // The tighter of the two at the finish.
    CHECK(*race.cutoff_s == Approx((11 * 60 + 45) * 60.0 - start_s));
}

TEST_CASE("one number ties two values, a matrix more") {
    const Scenario scenario = read({}, R"toml(
[[correlated]]
inputs = ["rider.drag_area", "rider.bicycle"]
correlation = 0.5
[[correlated]]
inputs = ["rider.fade", "rider.power", "weather.from"]
matrix = [[1, 0.2, 0.1], [0.2, 1, 0], [0.1, 0, 1]]
)toml");
    const auto& groups = scenario.model().correlations;
    REQUIRE(groups.size() == 2);
    CHECK(groups[0].layer == Layer::kKnowledge);
    CHECK(groups[0].matrix == std::vector<double>{1, 0.5, 0.5, 1});
    CHECK(groups[1].layer == Layer::kLuck);
    CHECK(groups[1].inputs.size() == 3);
    CHECK(scenario.fingerprint() != read({}).fingerprint());
}
