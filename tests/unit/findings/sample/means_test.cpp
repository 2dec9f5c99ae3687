#include "findings/sample/means.h"

#include <algorithm>
#include <random>
#include <vector>

#include "support/catch.h"

using namespace flattail::findings;

namespace {

Moments plain_moments(const std::vector<double>& values) {
    return measure_moments(values, std::vector<double>(values.size(), 1.0));
}

}  // namespace

TEST_CASE("mean and spread survive NIST's NumAcc4") {
    // NIST StRD, univariate, higher difficulty: 10000000.2, then 500 x (10000000.1,
    // 10000000.3): mean 10000000.2, standard deviation .1 (certified).
    std::vector<double> values{10000000.2};
    for (int i = 0; i < 500; ++i) {
        values.push_back(10000000.1);
        values.push_back(10000000.3);
    }
    const Moments moments = plain_moments(values);
    CHECK(moments.mean == Approx(10000000.2).epsilon(1e-15));
    CHECK(std::sqrt(sample_variance(moments)) == Approx(.1).epsilon(1e-7));
}

TEST_CASE("merged moments are the exact fractions") {
    // {9530, 9545, 9601} with {9700, 9522}: mean 9579.6, M2 109646/5, M3 35014734/25,
    // M4 28605186602/125, by exact rational arithmetic.
    const Moments both =
        merge(plain_moments({9530, 9545, 9601}), plain_moments({9700, 9522}));
    CHECK(both.weight == 5);
    CHECK(both.mean == Approx(9579.6).epsilon(1e-14));
    CHECK(both.m2 == Approx(109646.0 / 5).epsilon(1e-12));
    CHECK(both.m3 == Approx(35014734.0 / 25).epsilon(1e-12));
    CHECK(both.m4 == Approx(28605186602.0 / 125).epsilon(1e-12));
}

TEST_CASE("merging in any cut is measuring at once, weights included") {
    std::mt19937_64 random(3);
    std::exponential_distribution<double> exponential(.01);
    std::vector<double> values(300), weight(300);
    for (std::size_t i = 0; i < 300; ++i) {
        values[i] = exponential(random);
        weight[i] = 1 + static_cast<double>(i % 5);
    }
    const Moments all = measure_moments(values, weight);
    for (const std::size_t cut : {0u, 1u, 150u, 299u, 300u}) {
        const std::span<const double> v(values), w(weight);
        const Moments both = merge(measure_moments(v.first(cut), w.first(cut)),
                                   measure_moments(v.subspan(cut), w.subspan(cut)));
        CHECK(both.mean == Approx(all.mean).epsilon(1e-13));
        CHECK(both.m2 == Approx(all.m2).epsilon(1e-12));
        CHECK(both.m3 == Approx(all.m3).epsilon(1e-11));
        CHECK(both.m4 == Approx(all.m4).epsilon(1e-11));
    }
}

TEST_CASE("shape figures match a law with known ones") {
    // Two values, 1 with chance .1: skewness .8/.3, excess kurtosis (1 - 6 pq)/pq
    // (Johnson, Kemp & Kotz 2005, 3.2, Bernoulli law).
    const std::vector<double> values{0, 1}, weight{.9, .1};
    const Moments moments = measure_moments(values, weight);
    CHECK(population_variance(moments) == Approx(.09));
    CHECK(skewness(moments) == Approx(.8 / .3));
    CHECK(excess_kurtosis(moments) == Approx((1 - 6 * .09) / .09));
}
