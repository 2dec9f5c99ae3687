// What to pump, asked from the command line.
#include <algorithm>
#include <filesystem>
#include <sstream>

#include "end_to_end/program.h"
#include "support/catch.h"
#include "support/scratch_directory.h"

using namespace flattail::test;

namespace {

const std::string kScenario =
    std::string(FLATTAIL_SOURCE_DIR) + "/scenarios/lakeside/scenario.toml";

// Bytes that begin a character of UTF-8.
std::size_t count_columns(const std::string& line) {
    return static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xc0U) != 0x80U;
    }));
}

}  // namespace

TEST_CASE("pump prints figures in 80 columns and writes pump.csv") {
    const ScratchDirectory scratch;
    const Ran ran = run_program(scratch.path(), {"pump", kScenario, "--out", "tables"});
    CHECK(ran.exit_code == 0);
    CHECK(contains(ran.output, "air and bike at"));
    CHECK(contains(ran.output, "68/71"));
    std::istringstream lines(ran.output);
    for (std::string line; std::getline(lines, line);) CHECK(count_columns(line) <= 80);
    CHECK(contains(read_file(scratch.path() + "/tables/pump.csv"), ",pump,dry,"));
    CHECK_FALSE(std::filesystem::exists(scratch.path() + "/tables/pressure.csv"));
}

TEST_CASE("without limits pump tells what to add, and gives no figure") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    const Ran ran = run_program(scratch.path(), {"pump", "race.toml"});
    CHECK(ran.exit_code == 0);
    CHECK(contains(ran.output, "rim = { most ="));
    CHECK_FALSE(contains(ran.output, "air and bike at"));
}

TEST_CASE("a file that is missing ends pump with 2") {
    const ScratchDirectory scratch;
    CHECK(run_program(scratch.path(), {"pump", "no.toml"}).exit_code == 2);
    CHECK(run_program(scratch.path(), {"pump"}).exit_code == 2);
}
