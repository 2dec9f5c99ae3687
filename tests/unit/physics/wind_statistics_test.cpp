#include "physics/wind_statistics.h"

#include <cmath>
#include <utility>

#include "properties.h"
#include "support/catch.h"

using namespace flattail::physics;
using physics_test::Cases;
using physics_test::kCaseCount;

TEST_CASE("Weibull mean, spread and 95 percent point meet the exact values") {
    // Gamma function and quantile formula in an independent library.
    struct Row {
        double shape, mean, relative_sd, p95;
    };
    for (const Row& row :
         {Row{1.5, .90275, .6790, 2.0781}, Row{2.0, .88623, .5227, 1.7308},
          Row{2.5, .88726, .4279, 1.5510}, Row{3.0, .89298, .3634, 1.4416}}) {
        const Weibull law{row.shape, 1.0};
        const double mean = compute_weibull_mean(law);
        CHECK(mean == Approx(row.mean).margin(1e-5));
        CHECK(std::sqrt(compute_weibull_variance(law)) / mean ==
              Approx(row.relative_sd).margin(1e-4));
        CHECK(compute_weibull_quantile(law, .95) == Approx(row.p95).margin(1e-4));
    }
}

TEST_CASE("Weibull moments meet the exact values at shape 2, scale 5") {
    const Weibull law{2.0, 5.0};
    CHECK(compute_weibull_mean(law) == Approx(4.43113462726).epsilon(1e-11));
    CHECK(compute_weibull_variance(law) == Approx(5.36504591506).epsilon(1e-11));
    CHECK(compute_weibull_moment(law, 3.0) == Approx(166.167548522).epsilon(1e-11));
    CHECK(compute_weibull_scale(4.43113462726, 2.0) == Approx(5.0).epsilon(1e-11));
}

TEST_CASE("the mean resultant of directions meets the exact values") {
    // mpmath, I1/I0 to 12 digits.
    for (const auto& [kappa, length] : {std::pair{.5, .242499612581},
                                        {1.0, .446389965897},
                                        {2.0, .697774657964},
                                        {4.0, .863522611025},
                                        {5.0, .893383137044},
                                        {10.0, .948599825955},
                                        {50.0, .989948967378}}) {
        CHECK(compute_mean_resultant(kappa) == Approx(length).epsilon(1e-11));
    }
    CHECK(compute_mean_resultant(0.0) == 0.0);
}

TEST_CASE("the mean resultant has no step where the series takes over") {
    const double below = compute_mean_resultant(500.0);
    const double above = compute_mean_resultant(500.0 * (1 + 1e-12));
    CHECK(above == Approx(below).epsilon(1e-11));
    CHECK(compute_mean_resultant(1e6) == Approx(1.0 - .5e-6).epsilon(1e-12));
}

TEST_CASE("drift forgets and is refreshed as the exact discretisation says") {
    const Drift drift{1.5, 60.0};
    struct Row {
        double step, memory, innovation;
    };
    for (const Row& row :
         {Row{1, .983471453822, .271594870930}, Row{10, .846481724891, .798626665726},
          Row{60, .367879441171, 1.39481024255}}) {
        CHECK(compute_drift_memory(drift, row.step) == Approx(row.memory).epsilon(1e-11));
        CHECK(compute_drift_innovation(drift, row.step) ==
              Approx(row.innovation).epsilon(1e-11));
    }
}

TEST_CASE("the variance of a time average meets the exact values") {
    const Drift drift{1.5, 60.0};
    for (const auto& [span, variance] : {std::pair{60.0, 1.65545748527},
                                         {600.0, .405002042997},
                                         {90e3 / (34 / 3.6), .0281549382716}}) {
        CHECK(compute_drift_average_variance(drift, span) ==
              Approx(variance).epsilon(1e-11));
    }
    CHECK(compute_drift_average_variance(drift, 0.0) == 2.25);
    // Where the series hands over to the closed form.
    CHECK(compute_drift_average_variance(drift, .6 * (1 - 1e-15)) ==
          Approx(compute_drift_average_variance(drift, .6)).epsilon(1e-12));
}

TEST_CASE("two steps of drift are one longer step") {
    Cases cases(41);
    for (int i = 0; i < kCaseCount; ++i) {
        const Drift drift{cases.between(.1, 5), cases.between(5, 5000)};
        const double a = cases.between(0, 2000);
        const double b = cases.between(0, 2000);
        const double kept = compute_drift_memory(drift, b);
        CHECK(compute_drift_memory(drift, a) * kept ==
              Approx(compute_drift_memory(drift, a + b)).epsilon(1e-12));
        const double first = compute_drift_innovation(drift, a);
        const double second = compute_drift_innovation(drift, b);
        CHECK(std::hypot(first * kept, second) ==
              Approx(compute_drift_innovation(drift, a + b)).epsilon(1e-10));
    }
}
