// Repair times against what is known of normal means.
#include "evidence/flats/repair_posterior.h"

#include <cmath>

#include "support/catch.h"

using namespace flattail::evidence;

TEST_CASE("without a time the belief of before comes back") {
    const auto repairs = fit_repairs({});
    CHECK(repairs.count == 0);
    CHECK(repairs.median_s.mid == Approx(480).epsilon(.005));
    CHECK(repairs.median_s.low == Approx(480 * std::sqrt(.7 / 1.3)).epsilon(.01));
    CHECK(repairs.median_s.high == Approx(480 * std::sqrt(1.3 / .7)).epsilon(.01));
    CHECK(repairs.spread == Approx(1.5).epsilon(.02));
}

TEST_CASE("a known spread leaves the weighted mean of belief and times") {
    // Normal mean with known sd (any textbook): precision 1 / .188^2 before, n / .405^2
    // from n times. Nearly no doubt about the spread stands for a known one.
    RepairBeliefs beliefs;
    beliefs.spread_doubt = 1e-4;
    const std::vector<double> times(6, 900.0);
    const double sd = std::log(1.3 / .7) / (2 * 1.6448536269514722);
    const double before = 1 / (sd * sd);
    const double from_times = 6 / std::pow(std::log(1.5), 2);
    const double mean =
        (before * std::log(480) + from_times * std::log(900)) / (before + from_times);
    const auto repairs = fit_repairs(times, beliefs);
    CHECK(repairs.median_s.mid == Approx(std::exp(mean)).epsilon(1e-3));
    const double width = 1.6448536269514722 / std::sqrt(before + from_times);
    CHECK(repairs.median_s.high == Approx(std::exp(mean + width)).epsilon(2e-3));
}

TEST_CASE("times that scatter widen the spread, and many times stay finite") {
    std::vector<double> times;
    for (int i = 0; i < 2000; ++i) times.push_back(i % 2 == 0 ? 200.0 : 1200.0);
    const auto repairs = fit_repairs(times);
    CHECK(repairs.spread > 2.0);
    CHECK(repairs.median_s.mid == Approx(std::sqrt(200.0 * 1200)).epsilon(.05));
    CHECK(std::isfinite(repairs.median_s.sd));
}
