#include <boost/math/quadrature/trapezoidal.hpp>
#include <cmath>

#include "base/lane_math.h"
#include "chance/distribution.h"
#include "chance/make_distribution.h"
#include "chance/von_mises.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::chance;
using base::lane::kPi;

TEST_CASE("von Mises directions have the tabled mean resultant length") {
    struct Row {
        double concentration, resultant;
    };
    // I1/I0 by mpmath; three-digit tables stand in Mardia & Jupp 2000, appendix 2.
    for (const Row& row :
         {Row{.5, .242499612581}, Row{1, .446389965897}, Row{2, .697774657964},
          Row{4, .863522611025}, Row{5, .893383137044}, Row{10, .948599825955},
          Row{50, .989948967378}}) {
        CHECK(von_mises_resultant(row.concentration) ==
              Approx(row.resultant).epsilon(1e-11));
        const Distribution d = make_von_mises(1, row.concentration);
        CHECK(sd(d) == Approx(std::sqrt(-2 * std::log(row.resultant))).epsilon(1e-10));
    }
}

TEST_CASE("the expansions for sharp directions join the Bessel functions") {
    for (const double step : {-1e-9, 1e-9}) {
        const double k = 500 * (1 + step);
        CHECK(von_mises_resultant(k) == Approx(von_mises_resultant(500)).epsilon(1e-11));
        CHECK(von_mises_density(0.1, k) ==
              Approx(von_mises_density(0.1, 500)).epsilon(1e-8));
    }
}

TEST_CASE("the von Mises density has area one, and its share is its integral") {
    for (const double k : {0.1, 1.0, 8.0, 60.0, 800.0}) {
        CAPTURE(k);
        // A smooth periodic function: the trapezoidal rule converges geometrically.
        double area = 0.0;
        double resultant = 0.0;
        constexpr int kSteps = 4096;
        for (int i = 0; i < kSteps; ++i) {
            const double t = -kPi + 2 * kPi * i / kSteps;
            const double piece = von_mises_density(t, k) * 2 * kPi / kSteps;
            area += piece;
            resultant += piece * std::cos(t);
        }
        CHECK(area == Approx(1).epsilon(1e-12));
        CHECK(resultant == Approx(von_mises_resultant(k)).epsilon(1e-12));
        CHECK(von_mises_cdf(-kPi, k) == Approx(0).margin(1e-15));
        CHECK(von_mises_cdf(0, k) == Approx(0.5).epsilon(1e-12));
        CHECK(von_mises_cdf(kPi, k) == Approx(1).epsilon(1e-14));
        const double h = 1e-4 / std::sqrt(k + 1);
        const double rise = von_mises_cdf(0.05 + h, k) - von_mises_cdf(0.05 - h, k);
        CHECK(rise / (2 * h) == Approx(von_mises_density(0.05, k)).epsilon(1e-6));
    }
}

TEST_CASE("von Mises quantiles undo the shares down to the far tail") {
    for (const double k : {0.1, 1.0, 8.0, 60.0, 800.0}) {
        for (const double u : {1e-15, 1e-9, 1e-3, 0.2, 0.4999}) {
            CAPTURE(k, u);
            const double offset = von_mises_quantile(u, 1 - u, k);
            // The stated 1e-12 rad, seen as a share.
            const double slack = 1e-12 * von_mises_density(offset, k);
            CHECK(von_mises_cdf(offset, k) == Approx(u).epsilon(1e-9).margin(slack));
            CHECK(von_mises_quantile(1 - u, u, k) == -offset);
        }
        CHECK(von_mises_quantile(0.5, 0.5, k) == 0);
    }
}

TEST_CASE("directions stay within one turn around their mean") {
    for (const Distribution& d :
         {make_wrapped_normal(0.1, 0.5), make_von_mises(0.1, 4)}) {
        for (int i = 1; i < 100; ++i) {
            const double x = quantile(d, i / 100.0);
            REQUIRE((x >= 0 && x < 2 * kPi));
            REQUIRE(cdf(d, x) == Approx(i / 100.0).epsilon(1e-9));
        }
        CHECK(quantile(d, 0.5) == Approx(0.1));
        CHECK(quantile(d, 0.2) > kPi);
    }
}

TEST_CASE("a direction within so many degrees keeps nine in ten there") {
    const Distribution d = make_direction_within(kPi, 0.4);
    CHECK(quantile(d, 0.05) == Approx(kPi - 0.4).epsilon(1e-14));
    CHECK(quantile(d, 0.95) == Approx(kPi + 0.4).epsilon(1e-14));
}

TEST_CASE("a wide wrapped normal covers the circle and its shares add up") {
    const Distribution d = make_wrapped_normal(0, 4);
    CHECK(cdf(d, kPi) == Approx(1).epsilon(1e-12));
    CHECK(cdf(d, 0) == Approx(0.5).epsilon(1e-12));
    // R = exp(-sd^2 / 2) (Mardia & Jupp 2000, eq. 3.5.63): almost uniform here.
    CHECK(cdf(d, kPi / 2) == Approx(0.75).margin(1e-3));
}
