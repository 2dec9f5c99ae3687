#include "scenario_texts.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::scenario;

namespace {

Setup read_latex(const std::vector<std::string>& settings) {
    return read_smallest(settings).model().setups.at(1);
}

bool mentions(const Setup& setup, const std::string& word) {
    for (const std::string& caution : setup.cautions) {
        if (caution.find(word) != std::string::npos) return true;
    }
    return false;
}

// A road that loses 500 m in one descent.
const std::string kDescent =
    "race.course=" FLATTAIL_SOURCE_DIR "/tests/unit/scenario/descent.csv";

}  // namespace

TEST_CASE("an ordinary setup is not vetoed") {
    const Setup setup = read_latex({});
    CHECK_FALSE(setup.vetoed);
    CHECK(setup.cautions.empty());
}

TEST_CASE("hookless rims above 5 bar are vetoed") {
    // 500 kPa is 72.5 psi (common practice after ETRTO).
    CHECK_FALSE(read_latex({"rim.hookless=true", "setup.Latex.pressure=72 psi"}).vetoed);
    const Setup over = read_latex({"rim.hookless=true", "setup.Latex.pressure=73 psi"});
    CHECK(over.vetoed);
    CHECK(mentions(over, "hookless"));
    // Told in the digits that tell reading and limit apart, and once for each wheel.
    CHECK(mentions(over, "5.03 bar (73.0 psi) at the hottest hour"));
    CHECK(mentions(over, "may hold, 5.00 bar (72.5 psi)"));
    CHECK(over.cautions.size() == 2);
    const Setup rim = read_latex(
        {"rim.hookless=true", "rim.most=4.9 bar", "setup.Latex.pressure=73 psi"});
    CHECK(rim.cautions.size() == 2);
    CHECK(mentions(rim, "is over the rim's limit, 4.9 bar (71 psi)"));
}

TEST_CASE("a pressure limit is checked at the hottest hour") {
    const std::string limit = "rim.most=75 psi";
    const std::string pressure = "setup.Latex.pressure=71 psi";
    CHECK_FALSE(read_latex({limit, pressure}).vetoed);
    // 71 psi at 16 C is 78 psi at 40 C: pressure follows absolute temperature.
    const std::string heat =
        "weather.rows=[{ at = \"08:00\" }, { at = \"14:00\", temperature = \"40 C\" }]";
    const Setup hot = read_latex({limit, pressure, heat});
    CHECK(hot.vetoed);
    CHECK(mentions(hot, "78 psi"));
}

TEST_CASE("a tyre's own limits veto above and below") {
    const std::string tyre =
        "\n[[tyre]]\nname = \"Mine\"\nwidth = \"28 mm\"\nmost = \"5 bar\"\nleast = \"4 "
        "bar\"\n";
    const auto vetoed = [&](const std::string& pressure) {
        return read_smallest(
                   {"setup.Latex.tyre=Mine", "setup.Latex.pressure=" + pressure}, tyre)
            .model()
            .setups.at(1)
            .vetoed;
    };
    CHECK(vetoed("5.1 bar"));
    CHECK_FALSE(vetoed("5 bar"));
    CHECK_FALSE(vetoed("4 bar"));
    CHECK(vetoed("3.9 bar"));
}

TEST_CASE("a tyre narrower than its rim allows is vetoed") {
    CHECK_FALSE(read_latex({"rim.inner_width=21 mm"}).vetoed);
    CHECK(read_latex({"rim.inner_width=25 mm"}).vetoed);
}

TEST_CASE("latex with rim brakes is vetoed on a long descent only") {
    const std::string goal = "race.goal=0:30:00";
    CHECK(read_latex({kDescent, goal, "rim.brake=rim"}).vetoed);
    CHECK_FALSE(read_latex({kDescent, goal, "rim.brake=disc"}).vetoed);
    CHECK_FALSE(read_latex({"rim.brake=rim"}).vetoed);
    const Setup unknown = read_latex({kDescent, goal});
    CHECK_FALSE(unknown.vetoed);
    CHECK(mentions(unknown, "brake not stated"));
    const Scenario both = read_smallest({kDescent, goal, "rim.brake=rim"});
    CHECK_FALSE(both.model().setups.at(0).vetoed);
}

TEST_CASE("a kit that cannot mend a flat is pointed out") {
    CHECK(mentions(read_latex({"kit=[\"pump\"]"}), "no spare tube"));
    CHECK(mentions(read_latex({"kit=[\"tube\"]"}), "cannot be filled"));
    CHECK(
        mentions(read_latex({"kit=[\"2 tubes\", \"cartridge 16 g\"]"}), "one cartridge"));
    CHECK(read_latex({"kit=[\"2 tubes\", \"pump\"]"}).cautions.empty());
}

TEST_CASE("less than the coach's minimum kit is vetoed") {
    const std::string least = "decision.minimum_kit=[\"2 tubes\", \"2 cartridges\"]";
    CHECK(read_latex({least}).vetoed);
    CHECK_FALSE(read_latex({least, "kit=[\"2 tubes\", \"pump\"]"}).vetoed);
}
