// What `why` prints and writes.
#include <algorithm>

#include "end_to_end/program.h"
#include "support/catch.h"
#include "support/scratch_directory.h"

using namespace flattail::test;

namespace {

const std::string kScenario =
    std::string(FLATTAIL_SOURCE_DIR) + "/scenarios/wet-laps/scenario.toml";

}  // namespace

TEST_CASE("why prints its answers and writes its four tables") {
    const ScratchDirectory scratch;
    const Ran ran = run_program(scratch.path(),
                                {"why", kScenario, "--races", "2048", "--out", "tables"});
    CHECK(ran.exit_code == 0);
    for (const char* heading : {"WHAT WOULD TURN IT", "WHAT MOVES THE RESULT",
                                "WHAT KNOWING IS WORTH", "TYPICAL AND BAD DAYS"}) {
        CHECK(contains(ran.output, heading));
    }
    const std::string folder = scratch.path() + "/tables/";
    const std::string breaks = read_file(folder + "break-even.csv");
    CHECK(breaks.rfind("setup,against,question,unit,row,at,low,high,", 0) == 0);
    // A rider who does not repair is not asked how long repairs may take.
    CHECK(contains(breaks, "repair time,min,not asked"));
    CHECK(contains(read_file(folder + "sensitivity.csv"), "sd over what is not known"));
    CHECK(read_file(folder + "information.csv").rfind("learning,name,", 0) == 0);
    CHECK(
        read_file(folder + "trade-off.csv").rfind("setup,varied,variant,typical_s,", 0) ==
        0);
    for (const char* name :
         {"break-even.csv", "sensitivity.csv", "information.csv", "trade-off.csv"}) {
        const std::string text = read_file(folder + name);
        CHECK(std::count(text.begin(), text.end(), '\n') > 1);
        CHECK_FALSE(contains(text, "nan"));
        CHECK_FALSE(contains(text, "inf"));
    }
}

TEST_CASE("why is short on few days and says no number that it does not have") {
    const ScratchDirectory scratch;
    const Ran ran = run_program(scratch.path(),
                                {"why", kScenario, "--races", "64", "--out", "tables"});
    CHECK(ran.exit_code == 0);
    CHECK_FALSE(contains(ran.output, "nan"));
    CHECK_FALSE(contains(ran.output, "inf "));
    CHECK(run_program(scratch.path(), {"why"}).exit_code == 2);
}

TEST_CASE("why and pump draw their pictures when asked") {
    const ScratchDirectory scratch;
    const Ran why =
        run_program(scratch.path(), {"why", kScenario, "--races", "2048", "--quiet",
                                     "--pictures", "--out", "tables"});
    CHECK(why.exit_code == 0);
    const Ran pump =
        run_program(scratch.path(), {"pump", kScenario, "--pictures", "--out", "tables"});
    CHECK(pump.exit_code == 0);
    for (const char* name : {"moves", "break-even", "trade-off", "pressure"}) {
        const std::string svg =
            read_file(scratch.path() + "/tables/" + name + "-phone.svg");
        CHECK(contains(svg, "<title>Millrace Four Laps: "));
    }
}

TEST_CASE("why tells both places where an answer turns, and where there is none") {
    const ScratchDirectory scratch;
    const std::string folder =
        std::string(FLATTAIL_SOURCE_DIR) + "/tests/support/scenarios/";
    const auto ask = [&](const char* file, const std::string& out) {
        return run_program(scratch.path(),
                           {"why", folder + file, "--races", "256", "--out", out});
    };
    const Ran two = ask("two_crossings.toml", "two");
    CHECK(two.exit_code == 0);
    CHECK(contains(two.output, "less than -7."));
    CHECK(contains(two.output, "more than +8."));
    const std::string turns = "Wide tyre,Narrow tyre,gauge error,psi,turns,";
    const std::string table = read_file(scratch.path() + "/two/break-even.csv");
    CHECK(contains(table, turns + "-7."));
    CHECK(contains(table, turns + "8."));
    CHECK(contains(table, "setup better above"));
    CHECK(contains(table, "setup better below"));
    // The twin, on which only watts decide.
    const Ran none = ask("twelve_watts.toml", "none");
    CHECK(none.exit_code == 0);
    CHECK(contains(none.output, "Never within reason: "));
    const std::size_t row = none.output.find("  gauge error ");
    REQUIRE(row != std::string::npos);
    const std::string line = none.output.substr(row, none.output.find('\n', row) - row);
    CHECK(contains(line, "never"));
    CHECK_FALSE(contains(two.output, line));
    const std::string never = read_file(scratch.path() + "/none/break-even.csv");
    CHECK(contains(never, "12 W less,Usual tubes,gauge error,psi,never,"));
    CHECK_FALSE(contains(never, "12 W less,Usual tubes,gauge error,psi,turns,"));
}
