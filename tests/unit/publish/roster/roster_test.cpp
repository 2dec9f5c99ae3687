// A table of athletes: read, ridden, reported.
#include "flattail/roster.h"

#include <algorithm>
#include <filesystem>
#include <pugixml.hpp>

#include "flattail/publish.h"
#include "support/catch.h"
#include "support/scratch_directory.h"
#include "unit/publish/brief/brief_scenario.h"
#include "unit/publish/invented_findings.h"

using namespace flattail;
using namespace flattail::test;

namespace {

constexpr const char* kRace = R"toml(
kit = ["tube", "cartridge 16 g"]
[race]
name = "Small Race"
course = { distance = "20 km", climb = "100 m" }
bike_start = "2026-06-14 08:05"
[rider]
mass = "70 kg"
position = "drops"
power = "200 W"
[weather]
temperature = "16 C"
wind = "13 km/h"
from = "WSW"
[[setup]]
name = "Butyl"
tyre = "race 28 mm"
inner = "butyl"
pressure = "70 psi"
[[setup]]
name = "Latex"
like = "Butyl"
inner = "latex"
)toml";

class Squad {
  public:
    explicit Squad(const std::string& csv) {
        write_file(scratch_.path() + "/race.toml", kRace);
        write_file(scratch_.path() + "/athletes.csv", csv);
    }
    std::vector<RosterRow> read() const {
        return read_roster(path("athletes.csv"), path("race.toml"), {});
    }
    RosterOutcome write(int threads, const std::string& folder) const {
        RosterOptions options;
        options.study.races = 256;
        options.study.threads = threads;
        return write_roster(read(), options, path(folder));
    }
    std::string path(const std::string& name) const {
        return scratch_.path() + "/" + name;
    }

  private:
    ScratchDirectory scratch_;
};

std::string find_message(const Squad& squad) {
    try {
        squad.read();
    } catch (const InvalidInput& error) {
        return error.problems().front().what + " -> " + error.problems().front().hint;
    }
    return "";
}

bool has_setting(const RosterRow& row, const std::string& setting) {
    const auto& all = row.source.settings;
    return std::find(all.begin(), all.end(), setting) != all.end();
}

}  // namespace

TEST_CASE("columns of a roster are keys, with units in the header or the cell") {
    const Squad squad(
        "name,mass_kg,rider.power,bike_start,setups,setup.Latex.pressure\n"
        "Ada,62.5,180 W,07:45,Butyl; Latex,\n"
        "Bo,,,,,72 psi\n");
    const auto rows = squad.read();
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].athlete == "Ada");
    CHECK(has_setting(rows[0], "rider.name=\"Ada\""));
    CHECK(has_setting(rows[0], "rider.mass=62.5 kg"));
    CHECK(has_setting(rows[0], "rider.power=180 W"));
    CHECK(has_setting(rows[0], "race.bike_start=07:45"));
    CHECK(has_setting(rows[0], "owned = [\"Butyl\", \"Latex\"]"));
    CHECK(has_setting(rows[1], "setup.Latex.pressure=72 psi"));
    CHECK(rows[1].source.settings.size() == 2);
}

TEST_CASE("spreadsheets with semicolons may use decimal commas") {
    const auto rows = Squad("name;mass\r\nAda;62,5 kg\r\n").read();
    CHECK(has_setting(rows.at(0), "rider.mass=62.5 kg"));
}

TEST_CASE("folders are safe and none is used twice") {
    const Squad squad(
        "name\n../../etc\n\"<b>O'Neil & \"\"Co\"\"</b>\"\nAda\nADA\nada!\n");
    const auto rows = squad.read();
    REQUIRE(rows.size() == 5);
    CHECK(rows[0].folder == "etc");
    CHECK(rows[1].folder == "b-o-neil-co-b");
    CHECK(rows[2].folder == "ada");
    CHECK(rows[3].folder == "ada-2");
    CHECK(rows[4].folder == "ada-3");
}

TEST_CASE("a column that is no key is named with the nearest one") {
    CHECK(find_message(Squad("name,mas\nAda,60 kg\n")) ==
          "column \"mas\" is no key of a scenario -> did you mean \"mass\"?");
    CHECK(find_message(Squad("name,rider\nAda,60 kg\n")).find("rider") !=
          std::string::npos);
}

TEST_CASE("one bad row is reported and the others are done") {
    const Squad squad("name,mass\nAda,60 kg\nBo,6000 kg\nCy,80 kg\n");
    const RosterOutcome outcome = squad.write(2, "out");
    CHECK(outcome.done == 2);
    REQUIRE(outcome.problems.size() == 1);
    CHECK(outcome.problems[0].place.line == 3);
    CHECK(outcome.problems[0].what.find("Bo: rider.mass is 6000 kg") == 0);
    CHECK_FALSE(outcome.stopped_early);
    CHECK(std::filesystem::exists(squad.path("out/ada/brief.html")));
    CHECK(std::filesystem::exists(squad.path("out/cy/percentiles.csv")));
    CHECK_FALSE(std::filesystem::exists(squad.path("out/bo")));
    pugi::xml_document index;
    REQUIRE(index.load_string(read_whole(squad.path("out/index.html")).c_str()));
    CHECK(index.select_nodes("//tbody/tr").size() == 3);
    CHECK(index.select_nodes("//a").size() == 2);
    CHECK(split_lines(read_whole(squad.path("out/roster.csv"))).size() == 4);
}

TEST_CASE("a roster is the same for any number of threads") {
    const Squad squad("name,mass,setups\nAda,60 kg,Butyl\nBo,70 kg,\nCy,80 kg,Latex\n");
    CHECK(squad.write(1, "one").done == 3);
    CHECK(squad.write(3, "three").done == 3);
    for (const char* file : {"roster.csv", "index.html", "bo/brief.html", "ada/brief.txt",
                             "cy/tail-risk.csv"}) {
        INFO(file);
        CHECK((read_whole(squad.path(std::string("one/") + file)) ==
               read_whole(squad.path(std::string("three/") + file))));
    }
}

TEST_CASE("an athlete rides only what is owned") {
    const Squad squad("name,setups\nAda,Latex\n");
    const Scenario scenario = read_scenario(squad.read().at(0).source);
    CHECK(scenario.setup_names() == std::vector<std::string>{"Latex"});
    CHECK(scenario.setup_lines().at(0).wheels.find("latex") != std::string::npos);
}

TEST_CASE("who lacks the setup compared with has the first one owned in its place") {
    const Squad squad("name,setups,decision.against\nAda,Latex,Butyl\nBo,Latex,Latx\n");
    const Scenario ada = read_scenario(squad.read().at(0).source);
    REQUIRE(ada.warnings().size() > 0);
    CHECK(std::any_of(ada.warnings().begin(), ada.warnings().end(), [](const auto& w) {
        return w.what.find(
                   "\"Butyl\", which the others are compared with, is not "
                   "owned: \"Latex\" takes its place") != std::string::npos;
    }));
    CHECK_THROWS_AS(read_scenario(squad.read().at(1).source), InvalidInput);
}
