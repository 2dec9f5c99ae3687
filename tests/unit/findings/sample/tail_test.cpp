#include "findings/sample/tail.h"

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <limits>
#include <vector>

#include "findings/sample/means.h"
#include "support/catch.h"

using namespace flattail::findings;

namespace {

Estimate worst_average(const std::vector<double>& values,
                       const std::vector<double>& weight, double level) {
    return estimate_worst_average(WeightedSample(values, {weight, {}}), level);
}

// The middle values of many equal slices of a law stand for the law.
template <class Quantile>
double worst_average_of_law(Quantile quantile, double level) {
    const std::size_t slices = 400000;
    std::vector<double> values;
    for (std::size_t i = 0; i < slices; ++i)
        values.push_back(
            quantile((static_cast<double>(i) + .5) / static_cast<double>(slices)));
    return worst_average(values, std::vector<double>(slices, 1.0), level).value;
}

}  // namespace

TEST_CASE("the average of the worst days splits an atom") {
    // Rockafellar & Uryasev 2002: losses 1..10, level .85: two thirds of the tail is the
    // 10, one third a share of the 9.
    std::vector<double> values, ones(10, 1.0);
    for (int i = 1; i <= 10; ++i) values.push_back(i);
    CHECK(worst_average(values, ones, .85).value == Approx(9.66666667).epsilon(1e-8));
    CHECK(worst_average(values, ones, .9).value == Approx(10));
    CHECK(worst_average(values, ones, 0).value == Approx(5.5));
}

TEST_CASE("two independent losses average what the axioms promise") {
    // Two independent 4 % losses of 100, level .95: the sum's worst average is 103.2, and
    // less than twice the single one (subadditive, as a percentile is not).
    const std::vector<double> sum{0, 100, 200}, chance{.9216, .0768, .0016};
    CHECK(worst_average(sum, chance, .95).value == Approx(103.2));
    const std::vector<double> single{0, 100}, of_one{.96, .04};
    CHECK(worst_average(single, of_one, .95).value == Approx(80));
}

TEST_CASE("the average of the worst days matches the closed forms") {
    // N(0, 1): phi(z)/(1 - a): 1.75498331932, 2.06271280751, 2.66521422035,
    // 3.36709007706; lognormal median 300, log-sd .35: 623.133768811 and 767.318757301.
    const boost::math::normal standard;
    const auto normal = [&](double p) { return boost::math::quantile(standard, p); };
    CHECK(worst_average_of_law(normal, .90) == Approx(1.75498331932).epsilon(2e-5));
    CHECK(worst_average_of_law(normal, .95) == Approx(2.06271280751).epsilon(2e-5));
    CHECK(worst_average_of_law(normal, .99) == Approx(2.66521422035).epsilon(1e-4));
    CHECK(worst_average_of_law(normal, .999) == Approx(3.36709007706).epsilon(5e-4));
    const auto repair = [&](double p) { return 300 * std::exp(.35 * normal(p)); };
    CHECK(worst_average_of_law(repair, .95) == Approx(623.133768811).epsilon(2e-5));
    CHECK(worst_average_of_law(repair, .99) == Approx(767.318757301).epsilon(1e-4));
}

TEST_CASE("its error is that of the mean when every day is a worst day") {
    const std::vector<double> values{2, 4, 4, 4, 5, 5, 7, 9}, ones(8, 1.0);
    const Estimate whole = worst_average(values, ones, 0);
    CHECK(whole.standard_error == Approx(std::sqrt(32.0 / 7.0 / 8.0)));
}

TEST_CASE("a tail that holds a day without a finish has no finite average") {
    std::vector<double> values(100, 9500.0), ones(100, 1.0);
    values[3] = std::numeric_limits<double>::infinity();
    CHECK(std::isinf(worst_average(values, ones, .95).value));
}

TEST_CASE("what an event costs is averaged over the days that had it") {
    const std::vector<double> values{0, 300, 0, 500, 0}, weight{4, 1, 4, 3, 4};
    const std::vector<std::uint8_t> flat{0, 1, 0, 1, 0};
    const Design design{weight, {}};
    CHECK(estimate_conditional_mean(values, flat, design).value == Approx(450));
    CHECK(estimate_chance(flat, design).value == Approx(.25));
    // The same as a mean under weights set to 0 elsewhere.
    const std::vector<double> conditional{0, 1, 0, 3, 0};
    const Estimate other = estimate_mean(values, {conditional, {}});
    const Estimate cost = estimate_conditional_mean(values, flat, design);
    CHECK(other.value == Approx(450));
    CHECK(other.standard_error == Approx(cost.standard_error));
    CHECK(std::isnan(
        estimate_conditional_mean(values, std::vector<std::uint8_t>(5, 0), design)
            .value));
}

TEST_CASE("a chance and its complement share their error") {
    const std::vector<double> values{1, 2, 3, 4, 5}, weight{1, 2, 1, 2, 1};
    const WeightedSample sample(values, {weight, {}});
    CHECK(estimate_chance_beyond(sample, 3).value == Approx(3.0 / 7.0));
    CHECK(estimate_chance_beyond(sample, 5).value == 0);
    CHECK(estimate_chance_beyond(sample, 3).standard_error ==
          Approx(sample.cdf(3).standard_error));
}

TEST_CASE("limits of a chance are Clopper and Pearson's for plain days") {
    // 0 of 20: [0, .16843]; 1 of 10: [.0025286, .4450161] (R binom.test; Clopper &
    // Pearson 1934 give them as curves).
    const Interval none = chance_interval({0, 0}, 20);
    CHECK(none.low == 0);
    CHECK(none.high == Approx(.1684335).epsilon(1e-6));
    const Interval one = chance_interval({.1, std::sqrt(.1 * .9 / 10)}, 10);
    CHECK(one.low == Approx(.002528579).epsilon(1e-6));
    CHECK(one.high == Approx(.4450161).epsilon(1e-6));
    const Interval all = chance_interval({1, 0}, 20);
    CHECK(all.low == Approx(1 - .1684335).epsilon(1e-6));
    CHECK(all.high == 1);
}
