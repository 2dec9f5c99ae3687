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
    CHECK(read_file(folder + "trade-off.csv").rfind("setup,typical_s,", 0) == 0);
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
