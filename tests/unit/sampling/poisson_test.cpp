#include "sampling/poisson.h"

#include <boost/math/distributions/poisson.hpp>
#include <cmath>
#include <vector>

#include "sampling/address.h"
#include "statistical_checks.h"
#include "support/catch.h"

using namespace flattail::sampling;
using namespace flattail::test;

namespace {

std::vector<double> draw_counts(double mean, int days) {
    std::vector<double> counts;
    for (int day = 0; day < days; ++day) {
        const Address address{8, hash_input_name("flats"),
                              static_cast<std::uint64_t>(day), 0};
        counts.push_back(poisson_quantile(draw_uniform(address), mean));
    }
    return counts;
}

}  // namespace

TEST_CASE("ninety kilometres at one flat per 1500 km") {
    // e^-0.06 0.06^n / n!, mpmath.
    CHECK(poisson_probability(0, 0.06) == Approx(.941764533584).epsilon(1e-11));
    CHECK(poisson_probability(1, 0.06) == Approx(.0565058720151).epsilon(1e-11));
    CHECK(poisson_probability(2, 0.06) == Approx(.00169517616045).epsilon(1e-11));
    CHECK(poisson_probability(3, 0.06) == Approx(3.3903523209e-5).epsilon(1e-10));
    CHECK(poisson_tail(3, 0.06) == Approx(3.44182402447e-5).epsilon(1e-10));
}

TEST_CASE("probabilities and tails are those of Boost.Math") {
    for (const double mean : {1e-6, 0.06, 0.9, 7.5, 60.0, 699.0}) {
        const boost::math::poisson law(mean);
        for (const int count : {0, 1, 2, 5, 20, 80, 700}) {
            CAPTURE(mean, count);
            CHECK(poisson_probability(count, mean) ==
                  Approx(pdf(law, count)).epsilon(1e-12));
            const double tail = count == 0 ? 1.0 : cdf(complement(law, count - 1));
            CHECK(poisson_tail(count, mean) == Approx(tail).epsilon(1e-12));
        }
    }
    CHECK(poisson_probability(0, 0) == 1);
    CHECK(poisson_probability(1, 0) == 0);
    CHECK(poisson_probability(-1, 2) == 0);
    CHECK(poisson_tail(1, 0) == 0);
}

TEST_CASE("the quantile is the smallest count whose share reaches u") {
    for (const double mean : {0.06, 0.9, 7.5, 60.0, 699.0}) {
        const boost::math::poisson law(mean);
        for (const double u : {1e-9, 0.1, 0.5, 0.9, 0.999, 1 - 1e-9}) {
            const int count = poisson_quantile(u, mean);
            CAPTURE(mean, u, count);
            CHECK(cdf(law, count) >= u);
            if (count > 0) CHECK(cdf(law, count - 1) < u);
        }
    }
    CHECK(poisson_quantile(0.999, 0) == 0);
}

TEST_CASE("the search ends even where the sum can no longer reach u") {
    for (const double mean : {0.0, 0.06, 7.5, 699.0}) {
        const int count = poisson_quantile(1 - 0x1p-53, mean);
        CHECK(count >= mean);
        CHECK(count < 30 + mean + 12 * std::sqrt(mean));
    }
}

TEST_CASE("more hazard never means fewer flats on the same day") {
    for (int i = 1; i < 200; ++i) {
        const double u = i / 200.0;
        int before = 0;
        for (double mean = 0.0; mean < 40.0; mean += 0.0137) {
            const int count = poisson_quantile(u, mean);
            REQUIRE(count >= before);
            before = count;
        }
    }
}

TEST_CASE("counts drawn day by day have the mean of their law") {
    constexpr int kDays = 200000;
    for (const double mean : {0.06, 2.5}) {
        const std::vector<double> counts = draw_counts(mean, kDays);
        CHECK(has_mean(counts, mean, std::sqrt(mean)));
        // Twin: a rate a tenth off, which at .06 is 11 standard errors.
        CHECK_FALSE(has_mean(counts, mean * 1.1, std::sqrt(mean)));
    }
}
