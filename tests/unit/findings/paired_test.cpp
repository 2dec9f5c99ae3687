#include "findings/paired.h"

#include <cmath>
#include <limits>
#include <random>
#include <vector>

#include "support/catch.h"

using namespace flattail::findings;

namespace {

const double kInf = std::numeric_limits<double>::infinity();

}  // namespace

TEST_CASE("the four finish chances and the ties add up as counted by hand") {
    const std::vector<double> a{1, 2, kInf, 4, kInf, 6}, b{2, 2, 5, kInf, kInf, 5};
    const std::vector<double> judged_a{1, 2, 10, 4, 10, 6}, judged_b{2, 2, 5, 10, 10, 5};
    const std::vector<double> weight{1, 1, 2, 1, 1, 4};
    const PairedFindings found = compare_pair({a, judged_a}, {b, judged_b}, {weight, {}});
    CHECK(found.both_finish.value == Approx(.6));
    CHECK(found.only_a_finishes.value == Approx(.1));
    CHECK(found.only_b_finishes.value == Approx(.2));
    CHECK(found.neither_finishes.value == Approx(.1));
    CHECK(found.chance_tie.value == Approx(.2));
    CHECK(found.chance_faster.value == Approx(.2 + .1));
    CHECK(found.mean_difference_s.value == Approx((-1 + 0 + 10 - 6 + 0 + 4) / 10.0));
}

TEST_CASE("swapping the setups mirrors every finding") {
    std::mt19937_64 random(2);
    std::normal_distribution<double> normal;
    std::vector<double> a(500), b(500), ones(500, 1.0);
    for (std::size_t i = 0; i < 500; ++i) {
        a[i] = 9500 + normal(random);
        b[i] = random() % 3 == 0 ? a[i] : 9500 + normal(random);
    }
    const PairedFindings ab = compare_pair({a, a}, {b, b}, {ones, {}});
    const PairedFindings ba = compare_pair({b, b}, {a, a}, {ones, {}});
    CHECK(ab.chance_faster.value + ba.chance_faster.value == Approx(1));
    CHECK(ab.mean_difference_s.value == Approx(-ba.mean_difference_s.value));
    const WeightedSample x(a, {ones, {}}), y(b, {ones, {}});
    const Estimate xy = estimate_quantile_difference(x, y, .9);
    const Estimate yx = estimate_quantile_difference(y, x, .9);
    CHECK(xy.value == Approx(-yx.value).margin(1e-9));
    CHECK(xy.standard_error == Approx(yx.standard_error));
}

TEST_CASE("a setup compared with itself differs by nothing, for sure") {
    std::mt19937_64 random(8);
    std::normal_distribution<double> normal(9500, 80);
    std::vector<double> a(2000), ones(2000, 1.0);
    for (double& time : a) time = normal(random);
    const WeightedSample sample(a, {ones, {}});
    const Estimate same = estimate_quantile_difference(sample, sample, .95);
    CHECK(same.value == 0);
    CHECK(same.standard_error == Approx(0).margin(1e-4));
    CHECK(compare_pair({a, a}, {a, a}, {ones, {}}).mean_difference_s.standard_error == 0);
}

TEST_CASE("shared days narrow the limits of a difference of percentiles") {
    std::mt19937_64 random(9);
    std::normal_distribution<double> normal;
    std::vector<double> a(4000), near(4000), apart(4000), ones(4000, 1.0);
    for (std::size_t i = 0; i < a.size(); ++i) {
        a[i] = 80 * normal(random);
        near[i] = a[i] + 5 * normal(random);
        apart[i] = 80 * normal(random);
    }
    const WeightedSample x(a, {ones, {}}), y(near, {ones, {}}), z(apart, {ones, {}});
    const double paired = estimate_quantile_difference(x, y, .95).standard_error;
    const double unpaired = estimate_quantile_difference(x, z, .95).standard_error;
    CHECK(paired < .5 * unpaired);
    // Independent errors add in squares: sqrt(2) x 80 x 2.113 / sqrt(4000), 2.113
    // being the standard error of a normal 95 % mark times sqrt(n).
    CHECK(unpaired ==
          Approx(std::sqrt(2.0) * 80 * 2.11318751 / std::sqrt(4000.0)).epsilon(.2));
}

TEST_CASE("a percentile beyond every time has no known error") {
    const std::vector<double> a{1, 2, kInf, kInf}, b{1, 2, 3, 4}, ones(4, 1.0);
    const WeightedSample x(a, {ones, {}}), y(b, {ones, {}});
    const Estimate found = estimate_quantile_difference(x, y, .9);
    CHECK(found.value == kInf);
    CHECK(std::isnan(found.standard_error));
    CHECK(std::isnan(estimate_quantile_difference(x, x, .9).value));
}
