#include "findings/sample/weighted_sample.h"

#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <vector>

#include "support/catch.h"

using namespace flattail::findings;

namespace {

const double kInf = std::numeric_limits<double>::infinity();

std::vector<double> normal_scores(std::size_t count) {
    std::vector<double> scores;
    for (std::size_t i = 0; i < count; ++i)
        scores.push_back(boost::math::quantile(
            boost::math::normal(),
            (static_cast<double>(i) + .5) / static_cast<double>(count)));
    return scores;
}

}  // namespace

TEST_CASE("order-statistic limits have the published ranks") {
    // Binomial limits computed with SciPy and R: n = 1e4, p = .99: 9880 and 9920, cover
    // .955754683; p = .95: 9457 and 9543; n = 1e5, p = .999: 99880 and 99920.
    const RankLimits a = quantile_ranks(1e4, .99);
    CHECK(a.low == 9880);
    CHECK(a.high == 9920);
    CHECK(a.cover == Approx(.955754683).epsilon(1e-9));
    const RankLimits b = quantile_ranks(1e4, .95);
    CHECK(b.low == 9457);
    CHECK(b.high == 9543);
    const RankLimits c = quantile_ranks(1e5, .999);
    CHECK(c.low == 99880);
    CHECK(c.high == 99920);
}

TEST_CASE("plain days give those order statistics as limits") {
    std::vector<double> values(10000), ones(10000, 2.0);
    for (std::size_t i = 0; i < values.size(); ++i)
        values[(i * 7919) % 10000] = static_cast<double>(i + 1);
    const WeightedSample sample(values, {ones, {}});
    const Interval limits = sample.quantile_interval(.99);
    CHECK(sample.quantile(.99) == 9900);
    CHECK(limits.low == 9880);
    CHECK(limits.high == 9920);
}

TEST_CASE("a quantile is the smallest value that enough weight does not pass") {
    const std::vector<double> values{30, 10, 20, 40}, weight{1, 4, 3, 2};
    const WeightedSample sample(values, {weight, {}});
    CHECK(sample.quantile(.4) == 10);
    CHECK(sample.quantile(.41) == 20);
    CHECK(sample.quantile(.7) == 20);
    CHECK(sample.quantile(.8) == 30);
    CHECK(sample.quantile(1) == 40);
    CHECK(sample.cdf(20).value == Approx(.7));
    CHECK(sample.cdf(9).value == 0);
    CHECK(sample.cdf(1e9).value == Approx(1));
    CHECK(sample.share_between(20, 40).value == Approx(.4));
    CHECK(sample.share_between(20, kInf).value == Approx(.6));
}

TEST_CASE("rounding of p times the weight never costs a rank") {
    std::vector<double> values(100), ones(100, 1.0);
    for (std::size_t i = 0; i < 100; ++i) values[i] = static_cast<double>(i + 1);
    const WeightedSample sample(values, {ones, {}});
    for (int k = 1; k <= 100; ++k) REQUIRE(sample.quantile(k / 100.0) == k);
}

TEST_CASE("a day of weight two is two days") {
    const std::vector<double> values{5, 1, 3}, weight{1, 2, 3};
    const std::vector<double> repeated{5, 1, 1, 3, 3, 3}, ones(6, 1.0);
    const WeightedSample a(values, {weight, {}}), b(repeated, {ones, {}});
    for (const double p : {.01, .3, 1 / 3.0, .34, .5, .83, .84, .99})
        CHECK(a.quantile(p) == b.quantile(p));
}

TEST_CASE("no finish is beyond every time") {
    std::vector<double> values(1000, 100.0), ones(1000, 1.0);
    for (std::size_t i = 0; i < 20; ++i) values[i * 50] = kInf;
    const WeightedSample sample(values, {ones, {}});
    CHECK(sample.quantile(.98) == 100);
    CHECK(sample.quantile(.985) == kInf);
    CHECK(sample.cdf(1e300).value == Approx(.98));
    CHECK(sample.quantile_interval(.97).low == 100);
    CHECK(sample.quantile_interval(.9999).high == kInf);
}

TEST_CASE("too few days give no limit instead of a false one") {
    const std::vector<double> values{1, 2, 3, 4, 5}, ones(5, 1.0);
    const WeightedSample sample(values, {ones, {}});
    CHECK(sample.quantile_interval(.5).low == -kInf);
    CHECK(sample.quantile_interval(.5).high == kInf);
}

TEST_CASE("interval widths match the standard error of a normal quantile") {
    // n = 1e4: se .0373323626 at .99 and .0211318751 at .95, sqrt(p (1 - p) / n) /
    // density (Stuart & Ord 1994, 10.10), on the quantiles of the law itself. The tail
    // curves: the width of an interval of finite length is larger by a few parts in a
    // hundred.
    const std::vector<double> values = normal_scores(10000), ones(10000, 1.0);
    const WeightedSample sample(values, {ones, {}});
    const auto width = [&](double p) {
        const Interval limits = sample.quantile_interval(p);
        return (limits.high - limits.low) / (2 * normal_factor(.95));
    };
    CHECK(width(.95) == Approx(.0211318751).epsilon(.03));
    CHECK(width(.99) == Approx(.0373323626).epsilon(.04));
    CHECK(sample.estimate_quantile(.95).standard_error ==
          Approx(.0211318751).epsilon(.03));
    CHECK(sample.estimate_quantile(.99).standard_error ==
          Approx(.0373323626).epsilon(.04));
    CHECK_FALSE(width(.95) == Approx(.0211318751 * 1.1).epsilon(.03));
}

TEST_CASE("weights barely unequal give nearly the limits of equal ones") {
    const std::vector<double> values = normal_scores(10000), ones(10000, 1.0);
    std::vector<double> nearly = ones;
    nearly[17] = 1 + 1e-9;
    const WeightedSample plain(values, {ones, {}}), weighted(values, {nearly, {}});
    for (const double p : {.05, .5, .95, .99}) {
        const Interval a = plain.quantile_interval(p), b = weighted.quantile_interval(p);
        CHECK(std::fabs(a.low - b.low) < .1 * (a.high - a.low));
        CHECK(std::fabs(a.high - b.high) < .1 * (a.high - a.low));
    }
}

TEST_CASE("the error of a share equals the sum written out, for any strata") {
    std::mt19937_64 random(5);
    std::uniform_real_distribution<double> uniform;
    std::vector<double> values(5000), weight(5000);
    std::vector<std::uint8_t> stratum(5000);
    for (std::size_t i = 0; i < values.size(); ++i) {
        values[i] = uniform(random);
        stratum[i] = static_cast<std::uint8_t>(random() % 4);
        weight[i] = stratum[i] + .1 + uniform(random);
    }
    const Design design{weight, stratum};
    const WeightedSample sample(values, design);
    for (const double x : {.001, .2, .5, .77, .9999}) {
        const Estimate share = sample.cdf(x);
        const double written_out = standard_error(design, [&](std::size_t i) {
            return (values[i] <= x ? 1 : 0) - share.value;
        });
        CHECK(share.standard_error == Approx(written_out).epsilon(1e-9));
        const Estimate middle = sample.share_between(x / 2, x);
        const double middle_error = standard_error(design, [&](std::size_t i) {
            return (values[i] >= x / 2 && values[i] < x ? 1 : 0) - middle.value;
        });
        CHECK(middle.standard_error == Approx(middle_error).epsilon(1e-9));
    }
}

TEST_CASE("days of weight zero are days that a condition excludes") {
    const std::vector<double> values{7, 1, 9, 2, 3}, weight{0, 1, 0, 1, 1};
    const WeightedSample sample(values, {weight, {}});
    CHECK(sample.quantile(.01) == 1);
    CHECK(sample.quantile(.5) == 2);
    CHECK(sample.quantile(.9) == 3);
}
