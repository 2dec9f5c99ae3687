// A value swept from the command line.
#include <algorithm>
#include <filesystem>
#include <sstream>

#include "end_to_end/program.h"
#include "support/catch.h"
#include "support/scratch_directory.h"

using namespace flattail::test;

namespace {

const std::string kScenario =
    std::string(FLATTAIL_SOURCE_DIR) + "/tests/support/scenarios/twelve_watts.toml";

}  // namespace

TEST_CASE("sweep prints a line per value and writes a row per value and setup") {
    const ScratchDirectory scratch;
    const Ran ran = run_program(
        scratch.path(), {"sweep", kScenario, "--over", "rider.power=150 W..250 W:3",
                         "--races", "256", "--out", "tables"});
    CHECK(ran.exit_code == 0);
    for (const char* value : {"\n150 W ", "\n200 W ", "\n250 W "}) {
        CHECK(contains(ran.output, value));
    }
    std::istringstream lines(ran.output);
    for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 80);
    const std::string table = read_file(scratch.path() + "/tables/sweep.csv");
    CHECK(std::count(table.begin(), table.end(), '\n') == 1 + 3 * 2);
    CHECK(table.rfind("key,value,unit,setup,typical_s,", 0) == 0);
}

TEST_CASE("a sweep that cannot be read ends with 2 and writes nothing") {
    const ScratchDirectory scratch;
    const Ran bare = run_program(scratch.path(), {"sweep", kScenario});
    CHECK(bare.exit_code == 2);
    CHECK(contains(bare.errors, "write --over"));
    const Ran wrong = run_program(scratch.path(), {"sweep", kScenario, "--over",
                                                   "rider.power=150 W", "--out", "t"});
    CHECK(wrong.exit_code == 2);
    CHECK(contains(wrong.errors, "--over: rider.power: 150 W is one value"));
    CHECK_FALSE(std::filesystem::exists(scratch.path() + "/t/sweep.csv"));
}
