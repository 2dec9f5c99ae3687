// Break-evens of a scenario that is ridden: two of them, none, and their ranges.
#include <cmath>

#include "flattail/why.h"
#include "physics/rolling.h"
#include "support/catch.h"

using namespace flattail;

namespace {

const std::string kFolder =
    std::string(FLATTAIL_SOURCE_DIR) + "/tests/support/scenarios/";
constexpr double kPascalPerPsi = 6894.757;

BreakEvenFindings ask_pressure(const std::string& file, std::int64_t races,
                               const std::vector<std::string>& settings = {}) {
    StudyOptions options;
    options.races = races;
    const WhyFindings why = explain(read_scenario({kFolder + file, settings}), options);
    for (const BreakEvenFindings& found : why.break_even) {
        if (found.question == BreakEvenQuestion::kPressure) return found;
    }
    throw std::runtime_error("the question was not asked");
}

double find_crr(double width_m, double gauge_pa, double saved_crr) {
    physics::RollingLaw law;
    law.hysteresis_crr -= saved_crr;
    law.reference_pressure_pa = physics::find_reference_pressure_pa(width_m);
    physics::RollingState state;
    state.roughness_crr = physics::find_default_roughness_crr(physics::Surface::kCoarse);
    state.pressure_pa = gauge_pa;
    return physics::compute_crr(law, state);
}

// Wide less narrow with a gauge that errs by so much: the rolling law and the stated 0.4
// W of 85 kg at 45 km/h, a part of hysteresis (METHOD 4.4); nothing is ridden.
double find_difference(double error_psi) {
    const double off_pa = error_psi * kPascalPerPsi;
    const double saved_crr = 0.4 / (85.0 * 9.80665 * 12.5);
    return find_crr(0.032, 2.890e5 + off_pa, saved_crr) -
           find_crr(0.023, 4.021e5 + off_pa, 0.0);
}

double find_zero(double low, double high) {
    const bool rises = find_difference(high) > 0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        ((find_difference(middle) > 0) == rises ? high : low) = middle;
    }
    return 0.5 * (low + high);
}

}  // namespace

TEST_CASE("two tyres whose curves of pressure cross twice break even twice", "[slow]") {
    const BreakEvenFindings found = ask_pressure("two_crossings.toml", 256);
    REQUIRE(found.changes.size() == 2);
    const double low = find_zero(-12, 0), high = find_zero(0, 12);
    CHECK(low < -5);
    CHECK(high > 5);
    CHECK(found.changes[0].at == Approx(low).margin(.05));
    CHECK(found.changes[1].at == Approx(high).margin(.05));
    // The wide one is ahead between them.
    CHECK(found.changes[0].better_above);
    CHECK_FALSE(found.changes[1].better_above);
    // The twin: a step of the scan off would be seen.
    CHECK_FALSE(found.changes[0].at == Approx(low + .75).margin(.05));
}

TEST_CASE("the same tyre twice never breaks even over pressure", "[slow]") {
    const BreakEvenFindings found =
        ask_pressure("two_crossings.toml", 256,
                     {"setup.\"Wide tyre\".tyre=\"narrow\"",
                      "setup.\"Wide tyre\".pressure=\"4.021 bar\""});
    CHECK(found.changes.empty());
    CHECK(found.scan.size() == 33);
    for (const ScanRow& row : found.scan) {
        CHECK(row.difference.value < -4.9 * row.difference.standard_error);
    }
}

TEST_CASE("flats that the two do not share widen both ranges and draw them in",
          "[slow]") {
    const BreakEvenFindings dry = ask_pressure("two_crossings.toml", 256);
    const BreakEvenFindings found =
        ask_pressure("two_crossings.toml", 4096, {"flats.training=\"1 per 40000 km\""});
    REQUIRE(found.changes.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
        const BreakEvenRow& change = found.changes[i];
        const Interval& certain = dry.changes[i].interval;
        CHECK_FALSE(change.is_open_below);
        CHECK_FALSE(change.is_open_above);
        CHECK(change.interval.low < change.at);
        CHECK(change.at < change.interval.high);
        CHECK(change.interval.high - change.interval.low >
              2 * (certain.high - certain.low));
    }
    CHECK(found.changes[0].interval.high < found.changes[1].interval.low);
    // The wide one is cut half as often again: it is ahead over a shorter stretch.
    CHECK(found.changes[0].at > dry.changes[0].at);
    CHECK(found.changes[1].at < dry.changes[1].at);
}
