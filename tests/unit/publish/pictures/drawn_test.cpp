// What gnuplot makes of our scripts, whatever the setups are called and the race does.
#include <algorithm>
#include <limits>

#include "flattail/pictures.h"
#include "support/catch.h"
#include "support/scratch_directory.h"
#include "unit/publish/invented_findings.h"
#include "unit/publish/pictures/drawn_files.h"
#include "unit/publish/pictures/svg_layout.h"

using namespace flattail;
using namespace flattail::test;

namespace {

const char* const kScenario = R"(
race = { course = { distance = "88 km", climb = "400 m" }, bike_start = "08:05" }
rider = { mass = "70 kg", position = "drops", power = "200 W", repair = "ordinary" }
weather = { temperature = "16 C", wind = "13 km/h", from = "WSW" }
kit = ["tube", "cartridge 16 g"]
[[road.stretch]]
from = "31 km"
to = "33 km"
surface = "coarse"
debris = 3
[[setup]]
name = "Butyl"
tyre = "race 28 mm"
inner = "butyl"
pressure = "70 psi"
)";

// Every SVG of a race, by file name.
Svgs draw_all(const Findings& findings) {
    const ScratchDirectory scratch;
    const Scenario scenario =
        read_scenario({scratch.path() + "/race.toml", {}, std::string(kScenario)});
    return read_svgs(write_pictures(findings, scenario, scratch.path()), scratch.path());
}

void check_pictures(const Findings& findings, std::size_t count) {
    check_svgs(draw_all(findings), count);
}

}  // namespace

TEST_CASE("no text of a picture is clipped or lies on another, with 1 to 8 setups") {
    for (const std::size_t setups : {1U, 2U, 4U, 8U}) {
        // Without a second setup there is nothing to compare.
        check_pictures(invent_findings(list_hard_names(setups)), setups == 1 ? 8 : 10);
    }
}

TEST_CASE("a goal outside the axis, several goals or none leave pictures in order") {
    for (const double goal_s : {3600.0, 9301.0, 8700.0, 16000.0}) {
        Findings findings = invent_findings();
        findings.goals_s = {goal_s};
        check_pictures(findings, 10);
    }
    Findings none = invent_findings();
    none.goals_s.clear();
    for (SetupFindings& setup : none.setups) setup.goals.clear();
    check_pictures(none, 10);
}

TEST_CASE("a race that nobody finishes is drawn") {
    Findings findings = invent_findings();
    const double never = std::numeric_limits<double>::infinity();
    for (SetupFindings& setup : findings.setups) {
        std::fill(setup.quantiles_s.begin(), setup.quantiles_s.end(), never);
        for (PercentileRow& row : setup.percentiles)
            row = {row.percent, never, {never, never}};
        setup.typical_s = never;
        setup.nine_in_ten_s = {never, never};
        setup.no_finish = {1.0, 0.0};
    }
    check_pictures(findings, 10);
}

TEST_CASE("two drawings of the same findings are the same bytes") {
    CHECK(draw_all(invent_findings()) == draw_all(invent_findings()));
}

TEST_CASE("the search for collisions finds one") {
    const std::string head =
        "<svg viewBox=\"0 0 100 50\" xmlns=\"http://www.w3.org/2000/svg\">";
    const auto text = [](const char* x) {
        return std::string("<g transform=\"translate(") + x +
               ",20)\" font-size=\"14\"><text><![CDATA[words]]></text></g>";
    };
    CHECK(find_collisions(read_svg(head + text("5") + "</svg>")).empty());
    CHECK(find_collisions(read_svg(head + text("5") + text("20") + "</svg>")).size() ==
          1);
    CHECK(find_collisions(read_svg(head + text("90") + "</svg>")).size() == 1);
    CHECK(find_collisions(read_svg(head + text("-5") + "</svg>")).size() == 1);
}
