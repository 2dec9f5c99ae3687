#include "findings/sample/histogram.h"

#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <limits>
#include <vector>

#include "support/catch.h"

using namespace flattail::findings;

namespace {

const double kInf = std::numeric_limits<double>::infinity();

std::vector<double> times_around(double mean_s, double sd_s, std::size_t days) {
    std::vector<double> times;
    for (std::size_t i = 0; i < days; ++i)
        times.push_back(boost::math::quantile(
            boost::math::normal(mean_s, sd_s),
            (static_cast<double>(i) + .5) / static_cast<double>(days)));
    return times;
}

}  // namespace

TEST_CASE("every day falls into one bin, days without a finish into the last") {
    const std::vector<double> values{10, 20, 30, kInf, 25}, weight{1, 2, 3, 1, 1};
    const WeightedSample sample(values, {weight, {}});
    const std::vector<double> edge{20, 30};
    const Histogram histogram = count_by_edges(sample, edge);
    REQUIRE(histogram.share.size() == 3);
    CHECK(histogram.share[0].value == Approx(1.0 / 8));
    CHECK(histogram.share[1].value == Approx(3.0 / 8));
    CHECK(histogram.share[2].value == Approx(4.0 / 8));
}

TEST_CASE("the error of a bin is the binomial one") {
    const std::vector<double> values = times_around(0, 1, 1000), ones(1000, 1.0);
    const WeightedSample sample(values, {ones, {}});
    const std::vector<double> edge{0.0, 1.0};
    const Histogram histogram = count_by_edges(sample, edge);
    const double p = histogram.share[1].value;
    CHECK(histogram.share[1].standard_error == Approx(std::sqrt(p * (1 - p) / 999)));
}

TEST_CASE("edges are round, few, hold the goal and cover the middle") {
    const double goal_s = 2 * 3600 + 35 * 60;
    for (const double sd_s : {8.0, 60.0, 250.0, 1500.0, 20000.0}) {
        const std::vector<double> a = times_around(9300, sd_s, 2000);
        const std::vector<double> b = times_around(9360, sd_s, 2000), ones(2000, 1.0);
        const WeightedSample first(a, {ones, {}}), second(b, {ones, {}});
        const WeightedSample* both[]{&first, &second};
        const std::vector<double> edge = choose_time_edges(both, goal_s);
        const double step_s = edge[1] - edge[0];
        CHECK(edge.size() <= kMostInnerBins + 1);
        CHECK(edge.size() >= 4);
        CHECK(edge.front() <= first.quantile(.02));
        CHECK(edge.back() >= second.quantile(.98));
        CHECK(std::fmod(step_s, 5) == 0);
        CHECK(std::fmod(std::fabs(edge[0] - goal_s), step_s) == Approx(0).margin(1e-9));
    }
}

TEST_CASE("many days without a finish do not stretch the edges") {
    std::vector<double> values = times_around(9300, 60, 1000), ones(1000, 1.0);
    for (std::size_t i = 0; i < 100; ++i) values[i * 10] = kInf;
    const WeightedSample sample(values, {ones, {}});
    const WeightedSample* one[]{&sample};
    for (const double edge : choose_time_edges(one, 0)) CHECK(std::isfinite(edge));
    const std::vector<double> never(10, kInf), ten(10, 1.0);
    const WeightedSample lost(never, {ten, {}});
    const WeightedSample* none[]{&lost};
    CHECK(choose_time_edges(none, 9300) == std::vector<double>{9300});
}
