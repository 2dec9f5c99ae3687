// Poisson limits and ratios of two rates against published values.
#include "evidence/flats/exact_rates.h"

#include <cmath>

#include "support/catch.h"

using namespace flattail;
using namespace flattail::evidence;

namespace {

bool near(double value, double expected, double relative = 1e-6) {
    return std::fabs(value - expected) <= relative * std::fabs(expected);
}

}  // namespace

TEST_CASE("limits of a count are those of Garwood") {
    // Garwood 1936, computed with R poisson.test; 95 %.
    struct Row {
        int count;
        double low, high;
    };
    for (const Row& row : {Row{1, .0253178, 5.5716434}, Row{2, .2422093, 7.2246877},
                           Row{3, .6186721, 8.7672731}, Row{5, 1.6234864, 11.6683321},
                           Row{10, 4.7953887, 18.3903560}}) {
        const Interval limits = compute_poisson_limits(row.count);
        CAPTURE(row.count);
        CHECK(near(limits.low, row.low));
        CHECK(near(limits.high, row.high));
    }
    CHECK(compute_poisson_limits(0).low == 0.0);
    CHECK(near(compute_poisson_limits(0).high, 3.6888795));
    // Rule of three: -ln .05 as the one-sided limit.
    CHECK(near(compute_poisson_limits(0, .9).high, 2.995732274));
}

TEST_CASE("two rates are compared as in the worked example of R") {
    // R help page of poisson.test: 11 in 800 against 21 in 3011.
    const ExactRatio exact = compare_rates({11, 800}, {21, 3011});
    CHECK(near(exact.ratio, 1.971488095));
    CHECK(near(exact.limits.low, .8584264034));
    CHECK(near(exact.limits.high, 4.2772659437));
    CHECK(near(exact.p_value, .07966863303));
}

TEST_CASE("no flats at all leave every ratio possible") {
    const ExactRatio none = compare_rates({0, 800}, {0, 3011});
    CHECK(std::isnan(none.ratio));
    CHECK(none.limits.low == 0.0);
    CHECK(std::isinf(none.limits.high));
    CHECK(none.p_value == 1.0);
    const ExactRatio one_sided = compare_rates({3, 800}, {0, 3011});
    CHECK(std::isinf(one_sided.ratio));
    CHECK(one_sided.limits.low > 0.0);
    CHECK(std::isinf(one_sided.limits.high));
}

TEST_CASE("the distance to tell twice as many flats agrees with the normal rule") {
    // Log ratio: (1.96 + .8416)^2 (1 / m1 + 1 / m2) = ln^2 2 with m2 = 2 m1: 24.5 flats,
    // 61,200 km at 1 in 2,500 km; the exact test asks for somewhat more or less.
    const double more_m = find_distance_to_tell(0.0, 0.0, 1.0 / 2.5e6);
    CHECK(more_m > .9 * 61.2e6);
    CHECK(more_m < 1.2 * 61.2e6);
    // What is ridden already counts.
    const double rest_m = find_distance_to_tell(10e6, 10e6, 1.0 / 2.5e6);
    CHECK(near(rest_m, more_m - 10e6, .02));
    CHECK(find_distance_to_tell(80e6, 80e6, 1.0 / 2.5e6) == 0.0);
    CHECK(std::isinf(find_distance_to_tell(0.0, 0.0, 1e-12)));
}

TEST_CASE("alike rates are told apart no more often than the limits allow") {
    // Exact limits: at most 5 % false alarms whatever the counts.
    for (const double flats : {1.0, 5.0, 20.0, 80.0}) {
        CHECK(compute_chance_to_tell({1e6, 2e6, flats, 2 * flats}) <= .05);
    }
    CHECK(compute_chance_to_tell({1e6, 1e6, 200, 60}) > .999);
}
