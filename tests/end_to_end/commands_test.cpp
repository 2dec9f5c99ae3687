// What each command says and writes, and how the program ends.
#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "end_to_end/program.h"
#include "support/catch.h"
#include "support/scratch_directory.h"

using namespace flattail::test;
using nlohmann::json;

namespace {

std::size_t count_lines(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

constexpr const char* kTables[] = {"percentiles.csv", "tail-risk.csv",  "paired.csv",
                                   "histogram.csv",   "conditions.csv", "findings.json",
                                   "manifest.json"};

}  // namespace

TEST_CASE("without words, with help or --help the guide appears") {
    const ScratchDirectory scratch;
    const Ran bare = run_program(scratch.path(), {});
    CHECK(bare.exit_code == 0);
    CHECK(contains(bare.output, "flattail race race.toml"));
    CHECK(bare.errors.empty());
    CHECK(run_program(scratch.path(), {"--help"}).output == bare.output);
    CHECK(run_program(scratch.path(), {"help"}).output == bare.output);
    CHECK(find_widest(bare.output) <= 88);
}

TEST_CASE("each command explains itself within 80 columns, with an example") {
    const ScratchDirectory scratch;
    for (const char* command : {"race", "check", "course"}) {
        const Ran ran = run_program(scratch.path(), {command, "--help"});
        CHECK(ran.exit_code == 0);
        CHECK(contains(ran.output, std::string("Example:\n  flattail ") + command));
        CHECK(find_widest(ran.output) <= 80);
    }
}

TEST_CASE("the version is three numbers") {
    const ScratchDirectory scratch;
    const Ran ran = run_program(scratch.path(), {"--version"});
    CHECK(ran.exit_code == 0);
    CHECK(ran.output.rfind("flattail ", 0) == 0);
    CHECK(std::count(ran.output.begin(), ran.output.end(), '.') == 2);
}

TEST_CASE("the scenario of the guide is one that works") {
    const ScratchDirectory scratch;
    const std::string guide = run_program(scratch.path(), {}).output;
    const std::size_t first = guide.find("  race    =");
    std::string scenario = guide.substr(first, guide.find("\n\n", first) - first);
    const std::string track = "\"lakes.gpx\"";
    scenario.replace(scenario.find(track), track.size(),
                     "{ distance = \"88 km\", climb = \"400 m\" }");
    write_file(scratch.path() + "/race.toml", scenario);
    const Ran ran = run_program(scratch.path(), {"check", "race.toml"});
    CHECK(ran.errors == "");
    CHECK(ran.exit_code == 0);
}

TEST_CASE("a wrong word is named, with the word that was meant") {
    struct Case {
        std::vector<std::string> words;
        std::string message;
    };
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    for (const Case& c : std::vector<Case>{
             {{"rcae", "race.toml"},
              "flattail: there is no command 'rcae' -> did you mean race?"},
             {{"simulate"}, "there is no command 'simulate' -> race, brief, why"},
             {{"race", "--seeed", "4", "race.toml"},
              "flattail race: there is no option '--seeed' -> did you mean --seed?"},
             {{"check", "race.toml", "--out=x"},
              "there is no option '--out' -> it belongs to: race, brief"},
             {{"--seed", "3", "race", "race.toml"},
              "flattail: '--seed' stands before the command"},
             {{"race"}, "flattail race: no scenario file is named"},
             {{"race", "race.toml", "other.toml"}, "'other.toml' is one word too many"},
             {{"race", "race.toml", "--races", "1e5"},
              "--races is '1e5', not a whole number -> write --races 100000"},
             {{"race", "race.toml", "--seed", "99999999999999999999"},
              "not a whole number in range"},
             {{"race", "race.toml", "--seed"}, "flattail race --help"},
             {{"race", "race.toml", "--within", "soon"}, "write --within 1s"},
             {{"race", "race.toml", "--races", "5", "--quiet"}, "races is 5"},
             {{"race", "race.toml", "--threads=-3", "--quiet"}, "threads is -3"}}) {
        const Ran ran = run_program(scratch.path(), c.words);
        CHECK(ran.exit_code == 2);
        CHECK(ran.output.empty());
        CHECK(count_lines(ran.errors) == 1);
        CHECK_THAT(ran.errors, Catch::Contains(c.message));
    }
}

TEST_CASE("a scenario that is missing or a folder is refused by name") {
    const ScratchDirectory scratch;
    for (const char* command : {"race", "check", "course"}) {
        const Ran missing = run_program(scratch.path(), {command, "nowhere.toml"});
        CHECK(missing.exit_code == 2);
        CHECK(contains(missing.errors, "nowhere.toml"));
        CHECK(missing.output.empty());
        const Ran folder = run_program(scratch.path(), {command, "."});
        CHECK(folder.exit_code == 2);
        CHECK(contains(folder.errors, "folder"));
    }
}

TEST_CASE("every problem of a scenario is printed on a line of its own") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    const Ran ran =
        run_program(scratch.path(), {"check", "race.toml", "--set", "rider.mass=-3 kg",
                                     "--set", "weather.wind=13 kg"});
    CHECK(ran.exit_code == 2);
    CHECK(count_lines(ran.errors) == 2);
    CHECK(ran.output.empty());
}

TEST_CASE("check lists setups, defaults and cautions") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    const Ran ran = run_program(scratch.path(), {"check", "race.toml"});
    CHECK(ran.exit_code == 0);
    for (const char* part : {"SETUPS", "Latex", "DEFAULTS", "TAKE CARE"}) {
        CHECK(contains(ran.output, part));
    }
    CHECK(find_widest(ran.output) <= 80);
}

TEST_CASE("a setting counts as if the file said so") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    const auto check = [&](const std::vector<std::string>& more) {
        std::vector<std::string> words{"check"};
        words.insert(words.end(), more.begin(), more.end());
        return run_program(scratch.path(), words);
    };
    // Before and after the file, twice: the file's own name is never taken for a value.
    const Ran ran = check(
        {"--set", "rider.power=245 W", "race.toml", "--set", "rider.bicycle=8.1 kg"});
    CHECK(ran.exit_code == 0);
    CHECK(contains(ran.output, "245 W"));
    CHECK(ran.output != check({"race.toml"}).output);
}

TEST_CASE("course draws the road and writes its table when asked") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    const Ran bare = run_program(scratch.path(), {"course", "race.toml"});
    CHECK(bare.exit_code == 0);
    CHECK(contains(bare.output, "20.0 km"));
    CHECK(find_widest(bare.output) <= 80);
    CHECK_FALSE(std::filesystem::exists(scratch.path() + "/out"));
    const Ran ran = run_program(scratch.path(), {"course", "race.toml", "--out", "out"});
    CHECK(ran.output == bare.output);
    // A header and one row for each of 20 kilometres.
    CHECK(count_lines(read_file(scratch.path() + "/out/course.csv")) == 21);
}

TEST_CASE("race prints the page and writes every table") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    const Ran ran = run_program(scratch.path(), {"race", "race.toml", "--races", "4096"});
    CHECK(ran.exit_code == 0);
    CHECK(contains(ran.output, "2 setups, 4,096 race days"));
    CHECK(contains(ran.output, "CHOICE"));
    CHECK(contains(ran.output, "Tables: reports/run/race\n"));
    CHECK(find_widest(ran.output) <= 80);
    CHECK_FALSE(contains(ran.output, "\x1b"));
    CHECK_FALSE(contains(ran.errors, "%"));
    const std::string directory = scratch.path() + "/reports/run/race/";
    for (const char* table : kTables) CHECK_FALSE(read_file(directory + table).empty());
    const json manifest = json::parse(read_file(directory + "manifest.json"));
    CHECK(manifest["race_days"] == 4096);
    CHECK(manifest["stopped_early"] == false);
    CHECK(
        contains(ran.output, "Check code " + manifest["check_code"].get<std::string>()));
}

TEST_CASE("few days are enough for every table") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    for (const char* races : {"64", "65", "500"}) {
        const Ran ran = run_program(
            scratch.path(), {"race", "race.toml", "--races", races, "--out", "out"});
        CHECK(ran.exit_code == 0);
        CHECK_FALSE(contains(ran.output, "nan"));
        CHECK_FALSE(contains(ran.output, "inf "));
        CHECK_NOTHROW(json::parse(read_file(scratch.path() + "/out/findings.json")));
    }
}

TEST_CASE("--json prints the file itself and nothing else") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    const Ran ran = run_program(scratch.path(), {"race", "race.toml", "--races", "2048",
                                                 "--json", "--out", "out"});
    CHECK(ran.exit_code == 0);
    CHECK(ran.output == read_file(scratch.path() + "/out/findings.json"));
    CHECK(json::parse(ran.output)["schema"] == "flattail findings 1");
}

TEST_CASE("--quiet says nothing and still writes") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    const Ran ran = run_program(scratch.path(), {"race", "race.toml", "--races", "2048",
                                                 "--quiet", "--out", "out"});
    CHECK(ran.exit_code == 0);
    CHECK(ran.output.empty());
    CHECK(ran.errors.empty());
    CHECK(std::filesystem::exists(scratch.path() + "/out/manifest.json"));
}

TEST_CASE("threads never change a byte, seeds do") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    const auto race = [&](const std::string& out, const std::string& threads,
                          const std::string& seed) {
        return run_program(scratch.path(),
                           {"race", "race.toml", "--races", "8192", "--quiet",
                            "--threads", threads, "--seed", seed, "--out", out});
    };
    REQUIRE(race("one", "1", "7").exit_code == 0);
    REQUIRE(race("two", "2", "7").exit_code == 0);
    REQUIRE(race("other", "2", "8").exit_code == 0);
    for (const char* table : kTables) {
        const auto read = [&](const char* run) {
            return read_file(scratch.path() + "/" + run + "/" + table);
        };
        CHECK_FALSE(read("one").empty());
        CHECK(read("one") == read("two"));
        CHECK(read("one") != read("other"));
    }
}
