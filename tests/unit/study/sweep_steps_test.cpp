#include "study/questions/sweep_steps.h"

#include "flattail/problem.h"
#include "flattail/sweep.h"
#include "support/catch.h"

using namespace flattail;
using study::read_sweep;

namespace {

std::string read_refusal(const std::string& over) {
    try {
        read_sweep(over);
    } catch (const InvalidInput& error) {
        return error.what();
    }
    return {};
}

const std::string kTwelveWatts =
    std::string(FLATTAIL_SOURCE_DIR) + "/tests/support/scenarios/twelve_watts.toml";

double saved_s(const SweepPoint& point) {
    return -point.findings.pairs.front().mean_s.value;
}

}  // namespace

TEST_CASE("a sweep's values lie evenly, both ends among them") {
    const auto sweep = read_sweep(" rider.power = 150 W..250 W:5");
    CHECK(sweep.key == "rider.power");
    CHECK(sweep.unit == "W");
    std::vector<std::string> values;
    for (const auto& step : sweep.steps) values.push_back(step.value);
    CHECK(values ==
          std::vector<std::string>{"150 W", "175 W", "200 W", "225 W", "250 W"});
    CHECK(sweep.steps[1].number == 175);
}

TEST_CASE("a sweep has five steps, one unit, and decimals without dust") {
    CHECK(read_sweep("a=1..2").steps.size() == 5);
    CHECK(read_sweep("a=0..0.3:4").steps[1].value == "0.1");
    CHECK(read_sweep("a=20 %..40 %:3").steps[1].value == "30%");
    CHECK(read_sweep("a=1..3 per 1000 km:3").steps[1].value == "2 per 1000 km");
    CHECK(read_sweep("a=5 C..-5 C:3").steps[2].value == "-5 C");
    CHECK(read_sweep("setup.\"a=b\".pressure=60 psi..80 psi").key ==
          "setup.\"a=b\".pressure");
}

TEST_CASE("a sweep that cannot be read names --over and says what to write") {
    for (const char* over : {"", "rider.power", "=1..2", "a=", "a=5 W", "a=..5", "a=5..",
                             "a=x..y", "a=1..2:1", "a=1..2:x", "a=1..2:201", "a=1..2:",
                             "a=3 W..3 W", "a=1 W..2 kW", "a=2:30:00..2:40:00"}) {
        CAPTURE(over);
        const std::string told = read_refusal(over);
        CHECK(told.rfind("--over: ", 0) == 0);
        CHECK(told.find(" -> write ") != std::string::npos);
    }
}

TEST_CASE("a value that the scenario refuses is a mistake of --over, a setting is not") {
    const auto ask = [](const ScenarioSource& source, const char* over) {
        try {
            run_sweep(source, over, {});
        } catch (const InvalidInput& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    CHECK(ask({kTwelveWatts, {}}, "rider.mass=5 kg..80 kg").rfind("--over: ", 0) == 0);
    CHECK(ask({kTwelveWatts, {"rider.mass=5 kg"}}, "rider.power=150 W..250 W")
              .rfind("--set: ", 0) == 0);
}

TEST_CASE("twelve watts at 45 km/h save what the closed balance says, less when faster") {
    // Steady speed on a flat road in still air: P .97 = (Crr m g + rho CdA v^2 / 2 +
    // bearings) v, solved by hand at both rolling coefficients (Martin et al. 1998):
    // 3:41, 2:43 and 2:09 at 150, 200 and 250 W. A ride within 2 s of it.
    StudyOptions options;
    options.races = 256;
    const SweepFindings sweep =
        run_sweep({kTwelveWatts, {}}, "rider.power=150 W..250 W:3", options);
    REQUIRE(sweep.points.size() == 3);
    CHECK(saved_s(sweep.points[0]) == Approx(221).margin(2));
    CHECK(saved_s(sweep.points[1]) == Approx(163).margin(2));
    CHECK(saved_s(sweep.points[2]) == Approx(129).margin(2));
    // Twelve watts at any speed would be 290 s at 150 W.
    CHECK_FALSE(saved_s(sweep.points[0]) == Approx(290).margin(2));
}

TEST_CASE("the values of a sweep meet the same days") {
    // Where nothing of the race depends on the value, every figure is the same to the
    // bit.
    StudyOptions options;
    options.races = 128;
    const SweepFindings sweep =
        run_sweep({kTwelveWatts, {}}, "decision.matters=10 s..20 s:2", options);
    CHECK(sweep.points[0].findings.setups[0].mean_judged_s.value ==
          sweep.points[1].findings.setups[0].mean_judged_s.value);
    options.threads = 3;
    const SweepFindings again =
        run_sweep({kTwelveWatts, {}}, "decision.matters=10 s..20 s:2", options);
    CHECK(again.points[1].findings.pairs[0].mean_s.value ==
          sweep.points[1].findings.pairs[0].mean_s.value);
}
