// Tubes and tyres that stand for tested products.
#include <algorithm>
#include <cmath>

#include "evidence/rolling/belief.h"
#include "scenario_texts.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::scenario;

namespace {

// Two products with a correlation of .6, and what they were tested in.
const std::string kLibrary = R"toml(
[[evidence.rolling]]
from = "bench/tests.csv"
against = "Plain"
specimen = 0.0001
[[evidence.rolling.product]]
name = "Swift"
change = -0.0005
sd = 0.0002
correlation = []
tests = 9
laboratories = 4
widths = ["25 mm", "28 mm"]
tyres = ["race"]
surfaces = ["steel"]
[[evidence.rolling.product]]
name = "Sedate"
change = -0.0002
sd = 0.0001
correlation = [0.6]
)toml";

const std::string kBoth = kLibrary + R"toml(
[[inner]]
name = "latex"
tested_as = "Swift"
[[inner]]
name = "butyl"
tested_as = "sedate"
)toml";

bool is_warned(const Model& model, const std::string& part) {
    return std::any_of(model.warnings.begin(), model.warnings.end(),
                       [&](const Problem& problem) {
                           return problem.what.find(part) != std::string::npos;
                       });
}

std::string with(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("a tube takes the change of the product it was tested as") {
    const Scenario scenario = read_smallest({}, kBoth);
    const Input& latex = find_input(scenario.model(), "inner.latex.rolling");
    CHECK(latex.knowledge.shape == Shape::kNormal);
    CHECK(latex.knowledge.a == -0.0005);
    // A pair of specimens of its own adds half of their variance.
    CHECK(latex.knowledge.b == Approx(std::sqrt(4e-8 + .5e-8)).epsilon(1e-12));
    CHECK(latex.origin == Origin::kFitted);
    CHECK(latex.source == "9 tests by 4 laboratories, tests.csv");
}

TEST_CASE("tubes tested together are drawn together") {
    const Scenario scenario = read_smallest({}, kBoth);
    REQUIRE(scenario.model().correlations.size() == 1);
    const Correlation& together = scenario.model().correlations.front();
    CHECK(together.layer == Layer::kKnowledge);
    REQUIRE(together.inputs.size() == 2);
    CHECK(together.matrix[1] ==
          Approx(.6 * 2e-4 * 1e-4 / std::sqrt(4.5e-8 * 1.5e-8)).epsilon(1e-12));
}

TEST_CASE("a tube that is what others were compared with changes nothing for certain") {
    const Scenario scenario = read_smallest(
        {}, kLibrary + "[[inner]]\nname = \"latex\"\ntested_as = \"Plain\"\n");
    const Input& latex = find_input(scenario.model(), "inner.latex.rolling");
    CHECK(latex.knowledge.a == 0.0);
    CHECK(latex.knowledge.b == Approx(1e-4 / std::sqrt(2.0)).epsilon(1e-12));
    CHECK(latex.source == "what others are compared with, tests.csv");
    CHECK(scenario.model().correlations.empty());
}

TEST_CASE("a tyre can be a tested product too") {
    const Scenario scenario = read_smallest(
        {"setup.Latex.tyre=Keen"},
        kLibrary +
            "[[tyre]]\nname = \"Keen\"\nwidth = \"28 mm\"\ntested_as = \"Swift\"\n");
    CHECK(find_input(scenario.model(), "tyre.Keen.rolling").knowledge.a == -0.0005);
}

TEST_CASE("what is ridden otherwise than it was tested is warned of") {
    CHECK_FALSE(is_warned(read_smallest({}, kBoth).model(), "was tested"));
    const Scenario wide = read_smallest(
        {"setup.Latex.tyre=race 32 mm", "setup.Latex.pressure=60 psi"}, kBoth);
    CHECK(is_warned(wide.model(),
                    "Latex: Swift was tested at 25 to 28 mm, here it is 32 mm"));
    const Scenario tough = read_smallest({"setup.Latex.tyre=tough 28 mm"}, kBoth);
    CHECK(is_warned(tough.model(), "was tested in race, here it is in tough 28 mm"));
    const Scenario rough = read_smallest({"road.surface=coarse"}, kBoth);
    CHECK(
        is_warned(rough.model(), "was tested on steel, 100 % of this course is rougher"));
}

TEST_CASE("correlations that the library does not state in full are refused") {
    CHECK_THROWS_AS(read_smallest({}, with(kBoth, "[0.6]", "[]")), InvalidInput);
    CHECK_THROWS_AS(read_smallest({}, with(kBoth, "[0.6]", "[1.5]")), InvalidInput);
    CHECK_NOTHROW(read_smallest({}, with(kBoth, "[0.6]", "[-1]")));
}

TEST_CASE("the check code moves with the evidence") {
    const std::string usual = read_smallest({}, kBoth).fingerprint();
    CHECK(read_smallest({}, with(kBoth, "[0.6]", "[0.5]")).fingerprint() != usual);
    CHECK(read_smallest({}, with(kBoth, "-0.0005", "-0.0006")).fingerprint() != usual);
    CHECK(read_smallest({}, with(kBoth, "tests = 9", "tests = 8")).fingerprint() ==
          usual);
}
