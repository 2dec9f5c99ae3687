// What gnuplot makes of our scripts, whatever the setups are called and the race does.
#include <algorithm>
#include <fstream>
#include <iterator>
#include <limits>

#include "flattail/pictures.h"
#include "publish/pictures/pictures.h"
#include "support/catch.h"
#include "support/scratch_directory.h"
#include "unit/publish/invented_findings.h"
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

std::vector<std::string> list_hard_names(std::size_t count) {
    const std::vector<std::string> names{
        "Butyl (on now)",
        "A long name, with every part of it told, " + std::string(260, 'x'),
        "<b>O'Neil & \"Co\"</b>",
        "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xD7\xA2\xD7\x95\xD7\x9C\xD7\x9D",
        "\xF0\x9F\x9A\xB4 tyre \xF0\x9F\x9B\x9E",
        std::string(300, 'W'),
        "\xE6\x97\xA5\xE6\x9C\xAC\xE8\xAA\x9E",
        "at @ ^_{x} \\n % tab"};
    return {names.begin(), names.begin() + static_cast<std::ptrdiff_t>(count)};
}

// Every SVG of a race, by file name.
std::vector<std::pair<std::string, std::string>> draw_all(const Findings& findings) {
    const ScratchDirectory scratch;
    const Scenario scenario =
        read_scenario({scratch.path() + "/race.toml", {}, std::string(kScenario)});
    const Drawn drawn = write_pictures(findings, scenario, scratch.path());
    for (const std::string& problem : drawn.problems) FAIL(problem);
    std::vector<std::pair<std::string, std::string>> svgs;
    for (const std::string& file : drawn.files) {
        if (file.find(".svg") == std::string::npos) continue;
        std::ifstream stream(scratch.path() + "/" + file, std::ios::binary);
        svgs.emplace_back(file, std::string(std::istreambuf_iterator<char>(stream), {}));
    }
    return svgs;
}

void check_pictures(const Findings& findings, std::size_t count) {
    const auto svgs = draw_all(findings);
    CHECK(svgs.size() == count);
    for (const auto& [file, svg] : svgs) {
        INFO(file);
        const SvgPage page = read_svg(svg);
        REQUIRE(page.is_valid);
        CHECK(page.width == (file.find("-phone") == std::string::npos ? 720 : 380));
        CHECK(page.title.find("Three Herons Middle") == 0);
        CHECK(page.texts.size() > 3);
        const std::vector<std::string> collisions = find_collisions(page);
        for (const std::string& collision : collisions) FAIL_CHECK(collision);
        CHECK(svg.find("nan") == std::string::npos);
    }
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
