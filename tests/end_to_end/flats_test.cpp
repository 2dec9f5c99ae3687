// flattail flats: from a log of rides to a page, a table and a library that a race uses.
#include <algorithm>
#include <filesystem>
#include <sstream>

#include "end_to_end/program.h"
#include "support/catch.h"
#include "support/scratch_directory.h"

using namespace flattail::test;

namespace {

const std::string kFolder = std::string(FLATTAIL_SOURCE_DIR) + "/scenarios/lakeside/";

}  // namespace

TEST_CASE("flats prints a page of 80 columns and writes its table and library") {
    const ScratchDirectory scratch;
    std::filesystem::copy_file(kFolder + "rides.csv", scratch.path() + "/rides.csv");
    const Ran ran = run_program(scratch.path(), {"flats", "rides.csv"});
    CHECK(ran.exit_code == 0);
    CHECK(ran.errors.empty());
    CHECK(find_widest(ran.output) <= 80);
    CHECK(contains(ran.output, "Flats in rides.csv: 9,019 km"));
    const std::string tables = scratch.path() + "/reports/run/rides/";
    CHECK(contains(read_file(tables + "rates.csv"), "flat rate in training,butyl,"));
    CHECK(contains(read_file(tables + "flats.toml"), "[flats.cuts]"));
}

TEST_CASE("a race includes what flats wrote, and the log's rate is used") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    const std::string rides = kFolder + "rides.csv";
    CHECK(run_program(scratch.path(), {"flats", rides, "--out", ".", "--quiet"})
              .output.empty());
    write_file(scratch.path() + "/mine.toml",
               "include = [\"flats.toml\", \"race.toml\"]\n");
    const Ran ran =
        run_program(scratch.path(), {"race", "mine.toml", "--races", "256", "--quiet"});
    CHECK(ran.exit_code == 0);
    const Ran check = run_program(scratch.path(), {"check", "mine.toml"});
    CHECK(contains(check.output, "rides.csv: 5 flats in 6499 km on butyl"));
}

TEST_CASE("flats for a race takes its length and names wheels that were never ridden") {
    const ScratchDirectory scratch;
    const Ran ran = run_program(scratch.path(), {"flats", kFolder + "rides.csv", "--race",
                                                 kFolder + "scenario.toml"});
    CHECK(ran.exit_code == 0);
    CHECK(contains(ran.output, "THE RACE: 88 km"));
    CHECK(contains(ran.errors, "Tubeless: no ride is on tubeless"));
}

TEST_CASE("what flats cannot use is an error with a remedy") {
    const ScratchDirectory scratch;
    const std::string rides = kFolder + "rides.csv";
    const auto refuse = [&](std::vector<std::string> words, const std::string& part) {
        words.insert(words.begin(), "flats");
        const Ran ran = run_program(scratch.path(), words);
        CAPTURE(ran.errors);
        CHECK(ran.exit_code == 2);
        CHECK(contains(ran.errors, part));
        CHECK(ran.output.empty());
    };
    refuse({}, "no log is named -> flattail flats rides.csv");
    refuse({"nowhere.csv"}, "nowhere.csv");
    refuse({rides, "--distance", "90"}, "--distance is '90', not a length");
    refuse({rides, "--distance", "-3 km"}, "the race's length is -3 km");
    refuse({rides, "--clumping", "9"}, "clumping");
    refuse({rides, "--race", "a.toml", "--distance", "90 km"}, "are both given");
    refuse({rides, "--set", "a=b"}, "no option '--set'");
    CHECK(
        run_program(scratch.path(), {"flats", rides, "--out", "/dev/null/x"}).exit_code ==
        3);
}
