#include "chance/distribution.h"

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/gamma.hpp>
#include <boost/math/distributions/lognormal.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/triangular.hpp>
#include <boost/math/distributions/weibull.hpp>
#include <cmath>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "base/lane_math.h"
#include "chance/make_distribution.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::chance;

namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();
const std::vector<double> kShares{1e-12, 1e-6, 0.01, 0.05,  0.3,
                                  0.5,   0.7,  0.95, 0.999, 1 - 1e-9};

template <class BoostLaw>
void check_against(const BoostLaw& law, const Distribution& ours) {
    for (const double u : kShares) {
        CAPTURE(u);
        const double x = boost::math::quantile(law, u);
        CHECK(quantile(ours, u) == Approx(x).epsilon(1e-8).margin(1e-14));
        CHECK(cdf(ours, x) ==
              Approx(boost::math::cdf(law, x)).epsilon(1e-12).margin(1e-15));
        CHECK(density(ours, x) == Approx(boost::math::pdf(law, x)).epsilon(1e-10));
    }
    CHECK(mean(ours) == Approx(boost::math::mean(law)).epsilon(1e-12));
    CHECK(sd(ours) == Approx(boost::math::standard_deviation(law)).epsilon(1e-12));
}

std::vector<Distribution> list_continuous() {
    return {make_normal(3, 2),
            make_lognormal_median_spread(300, 1.4),
            make_split_normal({6, 8, 14}),
            make_split_lognormal({6, 8, 14}),
            make_uniform(-2, 5),
            make_beta(2.5, 7),
            make_beta(0.4, 0.6),
            make_gamma(1, 0.8),
            make_gamma(1, 1.8),
            make_weibull(2, 5),
            make_triangular(1, 4, 5),
            make_triangular(1, 1, 5),
            make_table({1, 2, 2.5, 7}),
            cut_distribution(make_normal(3, 2), 0, 4),
            cut_distribution(make_gamma(1, 1), 0.5, 3),
            cut_distribution(make_normal(0, 1), 2, kInfinity)};
}

/// Mean and sd by the midpoint rule over even shares: slow, plain, independent.
std::pair<double, double> sum_moments(const Distribution& d) {
    constexpr int kSteps = 20000;
    const double origin = quantile(d, 0.5);
    double first = 0.0;
    double second = 0.0;
    for (int i = 0; i < kSteps; ++i) {
        const double x = quantile(d, (i + 0.5) / kSteps) - origin;
        first += x / kSteps;
        second += x * x / kSteps;
    }
    return {origin + first, std::sqrt(second - first * first)};
}

}  // namespace

TEST_CASE("quantiles, shares, densities and moments are those of Boost.Math") {
    check_against(boost::math::normal(3, 2), make_normal(3, 2));
    check_against(boost::math::lognormal(std::log(300.0), std::log(1.4)),
                  make_lognormal_median_spread(300, 1.4));
    check_against(boost::math::beta_distribution<>(2.5, 7), make_beta(2.5, 7));
    check_against(boost::math::gamma_distribution<>(1.5625, 0.64), make_gamma(1, 0.8));
    check_against(boost::math::weibull(1.7, 6), make_weibull(1.7, 6));
    check_against(boost::math::triangular(1, 4, 5), make_triangular(1, 4, 5));
}

TEST_CASE("Weibull winds have the tabled moments and percentiles") {
    struct Row {
        double k, mean_over_c, sd_over_mean, p95_over_c;
    };
    // Gamma-function values, computed with mpmath from mean = c Gamma(1 + 1/k).
    for (const Row& row :
         {Row{1.5, .90275, .6790, 2.0781}, Row{2, .88623, .5227, 1.7308},
          Row{2.5, .88726, .4279, 1.5510}, Row{3, .89298, .3634, 1.4416}}) {
        const Distribution d = make_weibull(row.k, 1);
        CHECK(mean(d) == Approx(row.mean_over_c).margin(6e-6));
        CHECK(sd(d) / mean(d) == Approx(row.sd_over_mean).margin(6e-5));
        CHECK(quantile(d, 0.95) == Approx(row.p95_over_c).margin(6e-5));
    }
    const Distribution wind = make_weibull(2, 5);
    CHECK(mean(wind) == Approx(4.43113462726).epsilon(1e-11));
    CHECK(sd(wind) * sd(wind) == Approx(5.36504591506).epsilon(1e-11));
    CHECK(mean(make_weibull_mean(2, 4)) == Approx(4).epsilon(1e-14));
}

TEST_CASE("a share of the quantile at u is u") {
    for (const Distribution& d : list_continuous()) {
        for (const double u : kShares) {
            CAPTURE(static_cast<int>(d.shape), d.a, d.b, d.lower, u);
            CHECK(cdf(d, quantile(d, u)) == Approx(u).epsilon(1e-9).margin(1e-9));
        }
    }
}

TEST_CASE("quantiles rise and stay within their bounds") {
    for (const Distribution& d : list_continuous()) {
        double before = -kInfinity;
        for (int i = 1; i < 2000; ++i) {
            const double x = quantile(d, i / 2000.0);
            REQUIRE(x >= before);
            REQUIRE((x >= d.lower && x <= d.upper));
            before = x;
        }
        CHECK(quantile(d, 1 - 0x1p-53) <= d.upper);
        CHECK(quantile(d, 0x1p-53) >= d.lower);
        CHECK(std::isfinite(quantile(d, 1 - 0x1p-53)));
        CHECK(std::isfinite(quantile(d, 0x1p-53)));
    }
}

TEST_CASE("stated moments are those of the quantile function") {
    for (const Distribution& d : list_continuous()) {
        const auto [m, s] = sum_moments(d);
        CAPTURE(static_cast<int>(d.shape), d.a, d.b, d.lower);
        // The midpoint rule misses a little of each unbounded tail.
        const bool has_tail = quantile(d, 1 - 1e-12) - quantile(d, 1 - 1e-5) > 0.1 * s;
        CHECK(mean(d) == Approx(m).margin((has_tail ? 1e-3 : 1e-5) * s));
        CHECK(sd(d) == Approx(s).epsilon(has_tail ? 2e-2 : 1e-4));
    }
}

TEST_CASE("cutting a normal distribution gives the textbook moments") {
    // Johnson, Kotz & Balakrishnan 1994, section 10.1: with cuts a, b and
    // Z = Phi(b) - Phi(a), mean (phi(a) - phi(b))/Z,
    // variance 1 + (a phi(a) - b phi(b))/Z - mean^2.
    const boost::math::normal law;
    const double a = -0.5;
    const double b = 2.0;
    const double z = boost::math::cdf(law, b) - boost::math::cdf(law, a);
    const double m = (pdf(law, a) - pdf(law, b)) / z;
    const double variance = 1 + (a * pdf(law, a) - b * pdf(law, b)) / z - m * m;
    const Distribution d = cut_distribution(make_normal(10, 3), 10 + 3 * a, 10 + 3 * b);
    CHECK(mean(d) == Approx(10 + 3 * m).epsilon(1e-9));
    CHECK(sd(d) == Approx(3 * std::sqrt(variance)).epsilon(1e-9));
}

TEST_CASE("tables are read between their entries, samples are picked whole") {
    const Distribution table = make_table({10, 20, 40});
    CHECK(quantile(table, 0.25) == 15);
    CHECK(quantile(table, 0.75) == 30);
    CHECK(cdf(table, 30) == 0.75);
    CHECK(mean(table) == Approx(22.5));
    // Two even pieces: E x^2 = (700/3 + 2800/3) / 2.
    CHECK(sd(table) == Approx(std::sqrt(3500.0 / 6 - 22.5 * 22.5)));
    const Distribution cut = cut_distribution(table, 10, 30);
    CHECK(mean(cut) == Approx((15 * 2 + 25) / 3.0));

    const Distribution samples = make_samples({7, 3, 5, 3});
    // Ranked, whatever the order of the rows: 3, 3, 5, 7.
    CHECK(quantile(samples, 0.1) == 3);
    CHECK(quantile(samples, 0.49) == 3);
    CHECK(quantile(samples, 0.51) == 5);
    CHECK(quantile(samples, 1 - 0x1p-53) == 7);
    CHECK(cdf(samples, 3) == 0.5);
    CHECK(mean(samples) == 4.5);
    CHECK(sd(samples) == Approx(std::sqrt(2.75)));
}

TEST_CASE("points and yes-or-no values") {
    CHECK(quantile(make_point(4), 0.9) == 4);
    CHECK(sd(make_point(4)) == 0);
    const Distribution rare = make_bernoulli(0.2);
    CHECK(quantile(rare, 0.79) == 0);
    CHECK(quantile(rare, 0.81) == 1);
    CHECK(quantile(make_bernoulli(0), 1 - 0x1p-53) == 0);
    CHECK(quantile(make_bernoulli(1), 0x1p-53) == 1);
    CHECK(mean(rare) == 0.2);
    CHECK(sd(rare) == Approx(0.4));
}

TEST_CASE("what is wrong with a distribution is named") {
    using Fault = DistributionFault;
    const auto fault = [](Shape shape, double a, double b, double c = 0) {
        Distribution d;
        d.shape = shape;
        d.a = a;
        d.b = b;
        d.c = c;
        return find_fault(d);
    };
    CHECK(fault(Shape::kNormal, 0, 1) == Fault::kNone);
    CHECK(fault(Shape::kNormal, std::nan(""), 1) == Fault::kNotFinite);
    CHECK(fault(Shape::kNormal, 0, 0) == Fault::kSpreadNotPositive);
    CHECK(fault(Shape::kSplitNormal, 0, 1, -1) == Fault::kSpreadNotPositive);
    CHECK(fault(Shape::kGamma, -1, 1) == Fault::kSpreadNotPositive);
    CHECK(fault(Shape::kUniform, 2, 2) == Fault::kEndsNotInOrder);
    CHECK(fault(Shape::kTriangular, 0, 3, 2) == Fault::kEndsNotInOrder);
    CHECK(fault(Shape::kBernoulli, 1.1, 0) == Fault::kChanceOutOfRange);
    CHECK(fault(Shape::kTable, 0, 0) == Fault::kTableEmpty);
    CHECK(fault(Shape::kSamples, 0, 0) == Fault::kTableEmpty);
    Distribution d = make_table({1, 2});
    d.table = {2, 1};
    CHECK(find_fault(d) == Fault::kEndsNotInOrder);
    d = make_normal(0, 1);
    d.lower = 7;
    CHECK(find_fault(d) == Fault::kBoundsEmpty);
    d.lower = 2;
    d.upper = 1;
    CHECK(find_fault(d) == Fault::kBoundsEmpty);
    d = make_von_mises(1, 2);
    d.lower = 0;
    CHECK(find_fault(d) == Fault::kBoundsNotAllowed);
}
