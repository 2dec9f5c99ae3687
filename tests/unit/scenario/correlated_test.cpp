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
