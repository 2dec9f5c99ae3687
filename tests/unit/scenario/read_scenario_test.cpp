#include <cmath>
#include <set>

#include "chance/distribution.h"
#include "scenario_texts.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::scenario;

namespace {

double middle_of(const Model& model, InputId id) {
    return chance::quantile(model.input(id).knowledge, 0.5);
}

}  // namespace

TEST_CASE("the smallest file becomes a model in SI") {
    const Scenario scenario = read_smallest();
    const Model& m = scenario.model();
    CHECK(scenario.name() == "smallest");
    CHECK(m.race.date == "2026-06-14");
    CHECK(m.race.start_clock_s == Approx(8 * 3600 + 5 * 60));
    REQUIRE(m.race.goals.size() == 1);
    CHECK(m.race.goals[0].time_s == Approx(2 * 3600 + 35 * 60));
    CHECK(m.race.goals[0].text == "2:35:00");
    CHECK(m.course->length_m == Approx(90000.0));
    CHECK(middle_of(m, m.rider.mass_kg) == 70.0);
    CHECK(middle_of(m, m.rider.drag_area_m2) == Approx(0.27));
    CHECK(m.weather.rows.at(0).temperature_k == Approx(289.15));
    CHECK(m.weather.rows.at(0).wind_m_s == Approx(13 / 3.6));
    CHECK(m.weather.rows.at(0).from_rad == Approx(247.5 * 3.14159265358979 / 180));
    REQUIRE(m.setups.size() == 2);
    // 1 psi = 6894.757 Pa (NIST SP 811).
    CHECK(m.setups[0].wheels[0].gauge_pa == Approx(68 * 6894.757));
    CHECK(m.setups[0].wheels[1].gauge_pa == Approx(71 * 6894.757));
    CHECK(m.setups[0].kit.tubes == 1);
    CHECK(m.setups[0].kit.inflations() == 2);
}

TEST_CASE("a setup like another shares all but what it states itself") {
    const Scenario scenario = read_smallest();
    const Model& m = scenario.model();
    const Setup& butyl = m.setups[0];
    const Setup& latex = m.setups[1];
    CHECK(latex.name == "Latex");
    CHECK(m.inners[static_cast<std::size_t>(latex.wheels[1].inner)].name == "latex");
    CHECK(latex.wheels[1].tyre == butyl.wheels[1].tyre);
    CHECK(latex.wheels[1].gauge_pa == butyl.wheels[1].gauge_pa);
}

TEST_CASE("every id of a model points at an input") {
    const Scenario scenario = read_smallest();
    const Model& m = scenario.model();
    for (const InputId id : {m.rider.mass_kg,
                             m.rider.bicycle_kg,
                             m.rider.clothing_kg,
                             m.rider.power_w,
                             m.rider.bad_day_chance,
                             m.rider.bad_day_loss,
                             m.rider.fade_per_h,
                             m.rider.drag_area_m2,
                             m.weather.wind_factor,
                             m.weather.direction_error_rad,
                             m.weather.temperature_error_k,
                             m.weather.rain,
                             m.road.crr[0],
                             m.road.crr[3],
                             m.road.shelter_ratio,
                             m.road.wet_crr_ratio,
                             m.flats.training_per_m,
                             m.flats.race_ratio,
                             m.flats.day_factor,
                             m.flats.wet_ratio,
                             m.flats.rear_share,
                             m.flats.pinch_share,
                             m.repair.median_s,
                             m.repair.day_factor,
                             m.repair.first_try_fails,
                             m.repair.tyre_destroyed,
                             m.preparation.gauge_error_pa}) {
        REQUIRE(id.is_set());
        CHECK(static_cast<std::size_t>(id.index) < m.inputs.size());
    }
}

TEST_CASE("every distribution of a model is sound, and no name is used twice") {
    const Scenario scenario = read_smallest();
    std::set<std::string> names;
    for (const Input& input : scenario.model().inputs) {
        CAPTURE(input.name);
        CHECK(names.insert(input.name).second);
        CHECK(chance::find_fault(input.knowledge) == chance::DistributionFault::kNone);
        if (input.deviation == Deviation::kNone) continue;
        CHECK(chance::find_fault(input.luck) == chance::DistributionFault::kNone);
    }
}

TEST_CASE("every value in use names where it comes from") {
    const std::vector<UsedValue> used = read_smallest().used_values();
    CHECK(used.size() > 40);
    for (const UsedValue& value : used) {
        CAPTURE(value.name);
        CHECK_FALSE(value.label.empty());
        CHECK_FALSE(value.value.empty());
        CHECK_FALSE(value.source.empty());
        CHECK(value.range.empty() == (value.kind == "certain"));
    }
    const bool grouped = std::is_sorted(
        used.begin(), used.end(),
        [](const UsedValue& a, const UsedValue& b) { return a.origin < b.origin; });
    CHECK(grouped);
}

TEST_CASE("a plain quantity is certain and leaves the list of values in use") {
    const Scenario before = read_smallest();
    const Scenario after = read_smallest({"rider.bicycle=8.1 kg"});
    const auto lists = [](const Scenario& scenario) {
        for (const UsedValue& value : scenario.used_values()) {
            if (value.name == "rider.bicycle") return true;
        }
        return false;
    };
    CHECK(lists(before));
    CHECK_FALSE(lists(after));
    const Input& bicycle = find_input(after.model(), "rider.bicycle");
    CHECK(bicycle.knowledge.shape == Shape::kPoint);
    CHECK(bicycle.knowledge.a == Approx(8.1));
}

TEST_CASE("power keeps its day-to-day luck when only its middle is stated") {
    const Scenario by_meter = read_smallest();
    const Scenario by_feel = read_smallest({"rider.power_from=feel"});
    const Input& meter = find_input(by_meter.model(), "rider.power");
    const Input& feel = find_input(by_feel.model(), "rider.power");
    CHECK(meter.deviation == Deviation::kMultiply);
    CHECK(chance::mean(meter.luck) == Approx(1.0));
    CHECK(chance::sd(meter.luck) == Approx(0.035));
    CHECK(chance::sd(feel.luck) == Approx(0.05));
    const Scenario stated =
        read_smallest({"rider.power={ mean = \"200 W\", sd = \"0 W\" }"});
    CHECK(find_input(stated.model(), "rider.power").deviation == Deviation::kNone);
}

TEST_CASE("a stated spread of wind becomes a factor on the forecast") {
    const Scenario scenario =
        read_smallest({"weather.wind={ mean = \"10 km/h\", sd = \"2 km/h\" }"});
    const Model& m = scenario.model();
    CHECK(m.weather.rows.at(0).wind_m_s == Approx(10 / 3.6));
    const Input& factor = m.input(m.weather.wind_factor);
    CHECK(factor.knowledge.a == Approx(1.0));
    CHECK(factor.deviation == Deviation::kAdd);
    CHECK(chance::sd(factor.luck) == Approx(0.2).epsilon(1e-5));
}

TEST_CASE("a wind of unknown direction comes from anywhere") {
    std::string text = kSmallest;
    const std::string from = "from        = \"WSW\"\n";
    text.erase(text.find(from), from.size());
    const Scenario scenario = read_scenario_text(text, "anywhere.toml");
    const Model& m = scenario.model();
    const Input& error = m.input(m.weather.direction_error_rad);
    CHECK(error.luck.shape == Shape::kUniform);
    CHECK(error.luck.b - error.luck.a == Approx(2 * 3.14159265358979));
}

TEST_CASE("forecast rows take what they leave out from the table") {
    const Scenario scenario = read_smallest(
        {"weather.rows=[{ at = \"08:00\" }, { at = \"11:00\", wind = \"20 km/h\" }]"});
    const auto& rows = scenario.model().weather.rows;
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].wind_m_s == Approx(13 / 3.6));
    CHECK(rows[1].wind_m_s == Approx(20 / 3.6));
    CHECK(rows[1].temperature_k == rows[0].temperature_k);
    CHECK(rows[1].clock_s == 11 * 3600.0);
}

TEST_CASE("flats over a distance become the gamma posterior of their rate") {
    const Scenario scenario =
        read_smallest({"flats.training={ flats = 3, distance = \"4000 km\" }"});
    const Model& m = scenario.model();
    const Distribution& rate = m.input(m.flats.training_per_m).knowledge;
    // Jeffreys' prior, 3 flats in 4,000 km: mean 8.75e-4, sd 4.677071733e-4 per km
    // (gamma distribution, shape 3.5).
    CHECK(chance::mean(rate) == Approx(8.75e-7));
    CHECK(chance::sd(rate) == Approx(4.677071733e-7));
}

TEST_CASE("clumping keeps the mean rate of flats") {
    const Scenario scenario = read_smallest();
    const Model& m = scenario.model();
    const Input& factor = m.input(m.flats.day_factor);
    CHECK(factor.deviation == Deviation::kMultiply);
    CHECK(chance::mean(factor.luck) == Approx(1.0));
    CHECK(chance::sd(factor.luck) > 0.3);
    const Scenario even = read_smallest({"flats.clumping=1"});
    CHECK(even.model().input(even.model().flats.day_factor).deviation ==
          Deviation::kNone);
}

TEST_CASE("a stated repair has its own luck and a certain middle") {
    const Scenario scenario = read_smallest(
        {"rider.repair={ median = \"300 s\", spread = 1.4190675485932573 }"});
    const Model& m = scenario.model();
    CHECK(m.input(m.repair.median_s).knowledge.shape == Shape::kPoint);
    CHECK(middle_of(m, m.repair.median_s) == Approx(300.0));
    const Distribution& luck = m.input(m.repair.day_factor).luck;
    CHECK(luck.shape == Shape::kLognormal);
    CHECK(luck.a == Approx(0.0));
    CHECK(luck.b == Approx(0.35));
}

TEST_CASE("the exact example of flats can be written as a scenario") {
    const Scenario scenario = read_scenario(
        {FLATTAIL_SOURCE_DIR "/tests/support/scenarios/exact_flats.toml", {}});
    const Model& m = scenario.model();
    CHECK(m.race.start == StartKind::kRolling);
    CHECK(m.stop_cost == StopCost::kNotCounted);
    CHECK(m.race.speed_limit_m_s == Approx(34 / 3.6));
    CHECK(m.course->length_m == Approx(90e3));
    CHECK(middle_of(m, m.flats.training_per_m) == Approx(1 / 1500e3));
    CHECK(m.setups.at(0).kit.tubes == 2);
    CHECK(m.setups.at(0).kit.has_pump());
    for (const Input& input : m.inputs) {
        CAPTURE(input.name);
        const bool used_luck =
            input.name == "repair.day_factor" || input.name == "weather.wet_or_dry";
        CHECK((input.deviation == Deviation::kNone) == !used_luck);
        CHECK(input.knowledge.shape == Shape::kPoint);
    }
    for (const InputId id :
         {m.repair.tyre_destroyed, m.repair.first_try_fails, m.flats.slow_share,
          m.flats.pinch_share, m.rider.bad_day_chance, m.preparation.gauge_error_pa}) {
        CHECK(middle_of(m, id) == 0.0);
    }
}

TEST_CASE("one setup alone is a scenario") {
    const std::string text = kSmallest.substr(0, kSmallest.rfind("[[setup]]"));
    CHECK(read_scenario_text(text, "one.toml").setup_names().size() == 1);
}

TEST_CASE("the setup on the bicycle now is the one compared against") {
    const Scenario scenario = read_smallest({"setup.Latex.on_now=true"});
    CHECK(scenario.model().decision.against == 1);
    const Scenario stated = read_smallest({"decision.against=latex"});
    CHECK(stated.model().decision.against == 1);
}

TEST_CASE("a rule may be a share of days") {
    const Decision decision = read_smallest({"decision.rule=90 %"}).model().decision;
    CHECK(decision.rule == RuleKind::kPercentile);
    CHECK(decision.percentile == Approx(0.9));
}

TEST_CASE("laps repeat a recorded lap and its height") {
    const std::string lap = FLATTAIL_SOURCE_DIR "/tests/unit/scenario/lap.csv";
    const Scenario scenario =
        read_smallest({"race.course=" + lap, "race.laps=3", "race.goal=1:00:00"});
    CHECK(scenario.model().course->length_m == Approx(30e3).epsilon(1e-3));
    CHECK(scenario.model().course->ascent_m == Approx(3 * 60.0).epsilon(0.1));
}

TEST_CASE("a course prints as lines and as a table with units in its header") {
    const Scenario scenario = read_smallest();
    CHECK(scenario.course_lines().at(0).value == "90.0 km");
    const std::string table = scenario.course_table();
    CHECK(table.rfind("from_km,to_km,ascent_m,", 0) == 0);
    CHECK(std::count(table.begin(), table.end(), '\n') == 91);
}

TEST_CASE("a setup prints its tyre, inner and both pressures") {
    const SetupLine line = read_smallest().setup_lines().at(1);
    CHECK(line.wheels == "race 28 mm, latex, 4.7 / 4.9 bar (68 / 71 psi)");
    CHECK(line.kit == "tube, cartridge 16 g, cartridge 16 g (248 g)");
}
