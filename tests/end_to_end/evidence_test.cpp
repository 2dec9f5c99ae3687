// flattail evidence: from a file of tests to a page, tables and a library that a race
// uses.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "end_to_end/program.h"
#include "support/catch.h"
#include "support/scratch_directory.h"

using namespace flattail::test;

namespace {

const std::string kFolder = std::string(FLATTAIL_SOURCE_DIR) + "/scenarios/lakeside/";
const std::string kTests = kFolder + "tests.csv";

}  // namespace

TEST_CASE("evidence prints a page of 80 columns and writes its tables") {
    const ScratchDirectory scratch;
    std::filesystem::copy_file(kTests, scratch.path() + "/tubes.csv");
    const Ran ran = run_program(scratch.path(), {"evidence", "tubes.csv"});
    CHECK(ran.exit_code == 0);
    CHECK(ran.errors.empty());
    CHECK(find_widest(ran.output) <= 80);
    CHECK(contains(ran.output, "AGAINST Plain butyl"));
    CHECK(contains(ran.output, "LEFT OUT    line 40"));
    CHECK(contains(ran.output, "Tables: reports/run/tubes"));
    for (const char* name : {"tests.csv", "forest.csv", "rolling.toml"}) {
        CHECK(std::filesystem::exists(scratch.path() + "/reports/run/tubes/" + name));
    }
    const Ran again = run_program(scratch.path(), {"evidence", "tubes.csv"});
    CHECK(again.output == ran.output);
}

TEST_CASE("the slip of the example is found when the file says to use it") {
    const ScratchDirectory scratch;
    std::string text = read_file(kTests);
    const auto at = text.find(",no,typed in");
    REQUIRE(at != std::string::npos);
    text.replace(at, 4, ",yes,");
    std::ofstream(scratch.path() + "/slip.csv") << text;
    const Ran ran = run_program(scratch.path(), {"evidence", "slip.csv", "--out", "o"});
    CHECK(contains(ran.output, "STANDS OUT  line 41"));
    CHECK(contains(ran.output, "per pair?"));
}

TEST_CASE("evidence compares with the product and takes makers as asked") {
    const ScratchDirectory scratch;
    const Ran ran =
        run_program(scratch.path(), {"evidence", kTests, "--against", "Heron latex",
                                     "--makers", "left out", "--out", "o"});
    CHECK(ran.exit_code == 0);
    CHECK(contains(ran.output, "AGAINST Heron latex"));
    const Ran quiet =
        run_program(scratch.path(), {"evidence", kTests, "--out", "o", "--quiet"});
    CHECK(quiet.output.empty());
    CHECK(quiet.exit_code == 0);
}

TEST_CASE("evidence says what is wrong with its words") {
    const ScratchDirectory scratch;
    const auto told = [&](std::vector<std::string> words) {
        words.insert(words.begin(), "evidence");
        const Ran ran = run_program(scratch.path(), words);
        CHECK(ran.exit_code == 2);
        CHECK(ran.output.empty());
        return ran.errors;
    };
    CHECK(contains(told({}), "no file of tests is named"));
    CHECK(contains(told({"nowhere.csv"}), "nowhere.csv"));
    CHECK(contains(told({kFolder + "scenario.toml"}), "scenario.toml"));
    CHECK(contains(told({kTests, "--makers", "left"}), "--makers cannot be 'left'"));
    CHECK(contains(told({kTests, "--between", "wide"}), "write --between 0.0003"));
    CHECK(contains(told({kTests, "--specimen", "-1"}), "outside"));
    CHECK(contains(told({kTests, "--against", "Heron latx"}), "did you mean \"Heron"));
    CHECK(contains(told({kTests, "--races", "10"}), "it belongs to"));
}

TEST_CASE("the example's tests change what the race advises") {
    const ScratchDirectory scratch;
    const auto choose = [&](const std::string& file) {
        const Ran ran = run_program(
            scratch.path(), {"race", kFolder + file, "--races", "20000", "--out", "o"});
        CHECK(ran.exit_code == 0);
        const auto at = ran.output.find("CHOICE");
        return ran.output.substr(at, ran.output.find(" by ", at) - at);
    };
    CHECK(choose("scenario.toml") == "CHOICE   Latex, FIRM");
    CHECK(choose("tested.toml") == "CHOICE   TPU, FIRM");
}
