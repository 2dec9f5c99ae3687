// How far a value moves the answer, against the closed form of the exact flats: Poisson
// flats, lognormal repairs (Johnson, Kotz & Balakrishnan 1994, eq. 14.8), two tubes.
#include <algorithm>
#include <cmath>

#include "flattail/study.h"
#include "support/catch.h"

using namespace flattail;

namespace {

constexpr double kLength_km = 90.0;
constexpr double kNoFinish_s = 3600.0;
const double kMeanRepair_s = 300.0 * std::exp(0.35 * 0.35 / 2.0);
const double kSquareRepair_s2 = 300.0 * 300.0 * std::exp(2.0 * 0.35 * 0.35);

// Mean loss at a rate: one or two repairs, or an hour for the third flat.
double mean_loss_s(double flats_per_km) {
    const double l = flats_per_km * kLength_km;
    const double none = std::exp(-l);
    const double one = l * none, two = l * l / 2.0 * none;
    return kMeanRepair_s * (one + 2.0 * two) + kNoFinish_s * (1.0 - none - one - two);
}

// Of the mean over 2,048 plain days that share their points; stratified days are better.
double standard_error_s(double low_per_km, double high_per_km) {
    const double extra = (high_per_km - low_per_km) * kLength_km;
    const double high = high_per_km * kLength_km;
    const double variance = extra * (1.0 + high) * kSquareRepair_s2 +
                            std::pow(high, 3) / 6.0 * kNoFinish_s * kNoFinish_s;
    return std::sqrt(variance / 2048.0);
}

ValueWeight weigh(const std::string& name, const std::string& setting) {
    const Scenario scenario = read_scenario(
        {FLATTAIL_SOURCE_DIR "/tests/support/scenarios/exact_flats.toml", {setting}});
    const auto weights = weigh_values(scenario, {});
    const auto found =
        std::find_if(weights.begin(), weights.end(),
                     [&name](const ValueWeight& w) { return w.name == name; });
    REQUIRE(found != weights.end());
    return *found;
}

bool agrees(double found_s, double expected_s, double error_s) {
    return std::abs(found_s - expected_s) <= 4.9 * error_s;
}

}  // namespace

TEST_CASE("a range of flat rates moves the finish by what the closed form says") {
    const ValueWeight found =
        weigh("flats.training",
              R"(flats.training={ low = "1 per 6000 km", high = "1 per 600 km" })");
    const double low = 1.0 / 6000.0, high = 1.0 / 600.0;
    const double expected_s = mean_loss_s(high) - mean_loss_s(low);
    const double error_s = standard_error_s(low, high);
    CHECK(agrees(found.finish_s, expected_s, error_s));
    // Twin: half the range.
    CHECK_FALSE(agrees(found.finish_s, expected_s / 2.0, error_s));
}

TEST_CASE("a value that cannot act moves nothing") {
    const ValueWeight found =
        weigh("flats.wet_factor", "flats.wet_factor={ low = 1, high = 3 }");
    CHECK(found.finish_s == 0.0);
    CHECK(found.difference_s == 0.0);
}
