#include <cmath>

#include "chance/distribution.h"
#include "scenario_texts.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::scenario;

namespace {

const Tyre& tyre_of(const Model& m, const Wheel& wheel) {
    return m.tyres[static_cast<std::size_t>(wheel.tyre)];
}
const Inner& inner_of(const Model& m, const Wheel& wheel) {
    return m.inners[static_cast<std::size_t>(wheel.inner)];
}

}  // namespace

TEST_CASE("what is said of one wheel wins over what is said of both") {
    const Scenario scenario =
        read_smallest({"setup.Latex.front.tyre=thin time-trial 25 mm",
                       "setup.Latex.front.pressure=75 psi"});
    const Model& m = scenario.model();
    const Setup& setup = m.setups.at(1);
    CHECK(tyre_of(m, setup.wheels[0]).name == "thin time-trial 25 mm");
    CHECK(tyre_of(m, setup.wheels[1]).name == "race 28 mm");
    CHECK(setup.wheels[0].gauge_pa == Approx(75 * 6894.757));
    CHECK(setup.wheels[1].gauge_pa == Approx(71 * 6894.757));
}

TEST_CASE("a copy that states a tyre forgets the copied wheels' own") {
    const std::string more = R"(
[[setup]]
name = "Mixed"
like = "Latex"
front = { tyre = "tough 32 mm", inner = "TPU" }
[[setup]]
name = "Plain"
like = "mixed"
tyre = "race 25 mm"
)";
    const Scenario scenario = read_smallest({}, more);
    const Model& m = scenario.model();
    const Setup& mixed = m.setups.at(2);
    const Setup& plain = m.setups.at(3);
    CHECK(tyre_of(m, mixed.wheels[0]).name == "tough 32 mm");
    CHECK(tyre_of(m, plain.wheels[0]).name == "race 25 mm");
    CHECK(inner_of(m, plain.wheels[0]).name == "TPU");
    CHECK(inner_of(m, plain.wheels[1]).name == "latex");
}

TEST_CASE("a copy with another inner starts its own count of kilometres") {
    const std::string more = R"toml(
[[setup]]
name = "Trained"
like = "Butyl (on now)"
ridden_since_fitting = "300 km"
worn = "half"
[[setup]]
name = "Softer"
like = "Trained"
pressure = "60 psi"
[[setup]]
name = "New front"
like = "Trained"
front = { inner = "latex" }
[[setup]]
name = "New tyres"
like = "Trained"
tyre = "tough 28 mm"
[[setup]]
name = "Ridden in"
like = "Trained"
inner = "latex"
ridden_since_fitting = "50 km"
)toml";
    const Scenario scenario = read_smallest({}, more);
    const auto& setups = scenario.model().setups;
    for (const std::size_t wheel : {0U, 1U}) {
        CAPTURE(wheel);
        CHECK(setups.at(3).wheels[wheel].ridden_m.value() == Approx(300e3));
        CHECK(setups.at(3).wheels[wheel].wear_ratio.is_set());
        CHECK_FALSE(setups.at(5).wheels[wheel].ridden_m);
        CHECK_FALSE(setups.at(5).wheels[wheel].wear_ratio.is_set());
        CHECK(setups.at(6).wheels[wheel].ridden_m.value() == Approx(50e3));
        CHECK(setups.at(6).wheels[wheel].wear_ratio.is_set());
    }
    CHECK_FALSE(setups.at(4).wheels[0].ridden_m);
    CHECK(setups.at(4).wheels[0].wear_ratio.is_set());
    CHECK(setups.at(4).wheels[1].ridden_m.value() == Approx(300e3));
}

TEST_CASE("a setup may be like one that stands below it") {
    std::string text = kSmallest;
    const auto at = text.find("[[setup]]");
    text.insert(at,
                "[[setup]]\nname = \"First\"\nlike = \"Latex\"\npressure = \"80 psi\"\n");
    const Scenario scenario = read_scenario_text(text, "order.toml");
    const Model& m = scenario.model();
    CHECK(inner_of(m, m.setups.at(0).wheels[0]).name == "latex");
    CHECK(m.setups.at(0).wheels[0].gauge_pa == Approx(80 * 6894.757));
}

TEST_CASE("setups that name the same inner share what is not known of it") {
    const std::string more =
        "\n[[setup]]\nname = \"Soft\"\nlike = \"Latex\"\npressure = \"60 psi\"\n";
    const Scenario scenario = read_smallest({}, more);
    const Model& m = scenario.model();
    CHECK(m.setups.at(1).wheels[0].inner == m.setups.at(2).wheels[0].inner);
    CHECK(m.setups.at(1).wheels[0].inner == m.setups.at(1).wheels[1].inner);
}

TEST_CASE("limits stated for a built-in tyre leave it what it is") {
    const std::string tough = "setup.Latex.tyre=tough 28 mm";
    const std::string limits = "\n[[tyre]]\nname = \"tough 28 mm\"\nmost = \"7 bar\"\n";
    const Scenario plain = read_smallest({tough});
    const Scenario limited = read_smallest({tough}, limits);
    const Tyre& before = tyre_of(plain.model(), plain.model().setups.at(1).wheels[0]);
    const Tyre& after = tyre_of(limited.model(), limited.model().setups.at(1).wheels[0]);
    CHECK(after.most_pa.has_value());
    CHECK(after.width_m == before.width_m);
    const Input& rolling = find_input(plain.model(), "tyre.tough.rolling");
    CHECK(limited.model().input(after.crr_change).name == rolling.name);
    CHECK(limited.model().input(after.crr_change).knowledge.a == rolling.knowledge.a);
    CHECK(limited.model().input(after.cut_ratio).name == "tyre.tough.cuts");
    // What is stated is a fact of this tyre alone; another kind is believed.
    const Scenario stated = read_smallest({tough}, limits + "rolling = \"0.002\"\n");
    const Tyre& own = tyre_of(stated.model(), stated.model().setups.at(1).wheels[0]);
    CHECK(stated.model().input(own.crr_change).name == "tyre.tough 28 mm.rolling");
    CHECK(stated.model().input(own.cut_ratio).name == "tyre.tough.cuts");
    const Scenario race = read_smallest({tough}, limits + "kind = \"race\"\n");
    const Tyre& other = tyre_of(race.model(), race.model().setups.at(1).wheels[0]);
    CHECK(race.model().input(other.cut_ratio).name == "tyre.tough 28 mm.cuts");
}

TEST_CASE("a built-in tyre spelt otherwise is the user's own when that is listed") {
    const Scenario scenario =
        read_smallest({"setup.Latex.tyre=Tough 28mm"},
                      "\n[[tyre]]\nname = \"tough 28 mm\"\nmost = \"7 bar\"\n");
    const Model& m = scenario.model();
    CHECK(tyre_of(m, m.setups.at(1).wheels[0]).most_pa.has_value());
}

TEST_CASE("tyres of one kind and two widths share what is not known of the kind") {
    const Scenario scenario = read_smallest(
        {"setup.Latex.front.tyre=tough 28 mm", "setup.Latex.rear.tyre=tough 32 mm"});
    const Model& m = scenario.model();
    const Tyre& front = tyre_of(m, m.setups.at(1).wheels[0]);
    const Tyre& rear = tyre_of(m, m.setups.at(1).wheels[1]);
    CHECK(front.crr_change.index == rear.crr_change.index);
    CHECK(front.cut_ratio.index == rear.cut_ratio.index);
    CHECK(front.width_m == Approx(0.028));
    CHECK(rear.reference_pa < front.reference_pa);
}

TEST_CASE("the user's own part replaces a known one of that name") {
    const std::string more =
        "\n[[inner]]\nname = \"latex\"\nrolling = -0.001\ncuts = 1.5\n";
    const Scenario scenario = read_smallest({"setup.Latex.inner=Latex tube"}, more);
    const Input& rolling = find_input(scenario.model(), "inner.latex.rolling");
    CHECK(rolling.knowledge.a == Approx(-0.001));
    CHECK(rolling.origin == Origin::kStated);
    CHECK(find_input(scenario.model(), "inner.latex.cuts").knowledge.a == Approx(1.5));
}

TEST_CASE("sealant that has dried holds less often") {
    const auto chance_at = [](const std::string& age) {
        const std::string more =
            "\n[[inner]]\nname = \"Milk\"\nkind = \"tubeless\"\nsealant_age = \"" + age +
            "\"\n";
        const Scenario scenario = read_smallest({"setup.Latex.inner=Milk"}, more);
        const Model& m = scenario.model();
        return chance::quantile(find_input(m, "inner.Milk.holds").knowledge, 0.5);
    };
    CHECK(chance_at("0 d") == Approx(0.65).epsilon(1e-3));
    CHECK(chance_at("120 d") < 0.5);
}

TEST_CASE("fifty kilometres ridden leave a fifth of the fitting faults") {
    const Scenario scenario = read_smallest({"setup.Latex.ridden_since_fitting=50 km"});
    const auto& setups = scenario.model().setups;
    CHECK(setups.at(0).wheels[0].fitting_ratio == 1.0);
    CHECK(setups.at(1).wheels[0].fitting_ratio == Approx(0.2));
    const Scenario beginner = read_smallest({"preparation.fitting=beginner"});
    CHECK(beginner.model().setups.at(0).wheels[0].fitting_ratio == Approx(3.0));
}

TEST_CASE("watts saved in a test become a change of Crr") {
    const Scenario scenario =
        read_smallest({"setup.Latex.rolling={ save = \"12 W\", per = \"pair\", at = "
                       "\"12.5 m/s\", load = "
                       "\"85 kg\" }"});
    const Model& m = scenario.model();
    CHECK_FALSE(m.setups.at(0).rolling_saved_crr.is_set());
    const Input& saved = m.input(m.setups.at(1).rolling_saved_crr);
    // delta Crr = delta P / (load x speed): 12 W at 12.5 m/s under 85 kg is .00115.
    CHECK(saved.knowledge.a == Approx(0.00115).epsilon(0.005));
}

TEST_CASE("a kit is counted in words, numbers and other inners") {
    const Scenario scenario = read_smallest(
        {"kit=[\"2 x TPU tube\", \"3 cartridges 16 g\", \"small pump\", \"levers\"]"});
    const Model& m = scenario.model();
    const Kit& kit = m.setups.at(0).kit;
    CHECK(kit.tubes == 2);
    CHECK(kit.inflations() == 3);
    CHECK(kit.has_pump());
    REQUIRE(kit.spare_inner >= 0);
    CHECK(m.inners[static_cast<std::size_t>(kit.spare_inner)].name == "TPU");
    CHECK(kit.pump == Pump::kMini);
    CHECK(kit.levers);
    // 2 x 40 g, 3 x 59 g, 110 g and 25 g: common weights.
    CHECK(kit.mass_kg == Approx(0.080 + 3 * 3.7 * 0.016 + 0.110 + 0.025));
}

TEST_CASE("a kit may say how long the valves are and what things weigh") {
    const Scenario scenario = read_smallest(
        {"kit=[{ item = \"2 tubes\", valve = \"80 mm\", weighs = \"90 g\" }, "
         "\"cartridge 25 g\", \"patch kit\", \"boot\", \"sealant can\", \"no levers\"]"});
    const Kit& kit = scenario.model().setups.at(0).kit;
    CHECK(kit.tubes == 2);
    CHECK(kit.valve_m == Approx(0.080));
    CHECK(kit.cartridge_kg == std::vector<double>{0.025});
    CHECK(kit.patches == 6);
    CHECK(kit.boots == 1);
    CHECK(kit.sealant_cans == 1);
    CHECK_FALSE(kit.levers);
    CHECK(kit.mass_kg == Approx(0.180 + 3.7 * 0.025 + 0.025 + 0.008 + 0.120));
}

TEST_CASE("a short valve does not fit a deep rim unless it is made longer") {
    const auto fits = [](const std::string& valve, const std::string& more) {
        const Scenario scenario = read_smallest(
            {"rim.depth=60 mm", "kit=[{ item = \"tube\", valve = \"" + valve +
                                    "\" }, \"cartridge\"" + more + "]"});
        return scenario.model().setups.at(0).wheels[0].spare_fits;
    };
    CHECK(fits("80 mm", ""));
    CHECK(fits("75 mm", ""));
    CHECK_FALSE(fits("60 mm", ""));
    CHECK_FALSE(fits("60 mm", ", \"valve extender\""));
    CHECK(fits("60 mm", ", \"valve extender\", \"core tool\""));
}

TEST_CASE("air reaches a disc wheel through an adaptor only") {
    const auto reaches = [](const std::string& more) {
        const Scenario scenario = read_smallest(
            {"setup.Latex.rear.disc=true", "kit=[\"tube\", \"cartridge\"" + more + "]"});
        const Setup& setup = scenario.model().setups.at(1);
        CHECK(setup.wheels[0].air_reaches);
        return setup.wheels[1].air_reaches;
    };
    CHECK_FALSE(reaches(""));
    CHECK(reaches(", \"disc adaptor\""));
}

TEST_CASE("a setup's own kit replaces the kit of all") {
    const Scenario scenario = read_smallest({"setup.Latex.kit=[\"pump\"]"});
    CHECK(scenario.model().setups.at(0).kit.tubes == 1);
    CHECK(scenario.model().setups.at(1).kit.tubes == 0);
}
