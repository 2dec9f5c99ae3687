#include "chance/make_distribution.h"

#include <cmath>

#include "support/catch.h"

using namespace flattail;
using namespace flattail::chance;

namespace {

void check_range(const Distribution& d, double low, double high, double accuracy) {
    CAPTURE(low, high);
    CHECK(quantile(d, 0.05) == Approx(low).epsilon(accuracy));
    CHECK(quantile(d, 0.95) == Approx(high).epsilon(accuracy));
}

}  // namespace

TEST_CASE("nine in ten values lie between low and high, whatever the shape") {
    check_range(make_normal_from_range({2, 5}), 2, 5, 1e-13);
    check_range(make_lognormal_from_range({1000, 6000}), 1000, 6000, 1e-13);
    check_range(make_split_normal({6, 8, 14}), 6, 14, 1e-13);
    check_range(make_split_lognormal({6, 8, 14}), 6, 14, 1e-13);
    check_range(cut_distribution(make_normal_from_range({2, 5}), -1e9, 1e9), 2, 5, 1e-12);
}

TEST_CASE("half of a skewed range lies below its middle") {
    CHECK(quantile(make_split_normal({6, 8, 14}), 0.5) == 8);
    CHECK(quantile(make_split_lognormal({6, 8, 14}), 0.5) == Approx(8).epsilon(1e-15));
}

TEST_CASE("a beta distribution meets the two points it is asked for") {
    struct Row {
        double low, high;
    };
    for (const Row& row : {Row{.55, .80}, Row{.05, .25}, Row{.40, .85}, Row{.02, .40},
                           Row{.001, .01}, Row{.9, .999}, Row{.01, .99}, Row{.49, .51}}) {
        const auto d = make_beta_from_range({row.low, row.high});
        REQUIRE(d.has_value());
        check_range(*d, row.low, row.high, 1e-8);
    }
}

TEST_CASE("a beta range and its mirror image give mirrored exponents") {
    const auto d = make_beta_from_range({.1, .4});
    const auto mirrored = make_beta_from_range({.6, .9});
    REQUIRE((d && mirrored));
    CHECK(d->a == Approx(mirrored->b).epsilon(1e-8));
    CHECK(d->b == Approx(mirrored->a).epsilon(1e-8));
}

TEST_CASE("a beta range is recovered from the distribution that has it") {
    const Distribution known = make_beta(3, 11);
    const auto d = make_beta_from_range({quantile(known, 0.05), quantile(known, 0.95)});
    REQUIRE(d.has_value());
    CHECK(d->a == Approx(3).epsilon(1e-8));
    CHECK(d->b == Approx(11).epsilon(1e-8));
}

TEST_CASE("a chance range that is all but 0 to 1 is refused rather than bent") {
    CHECK_FALSE(make_beta_from_range({1e-300, 1 - 1e-16}).has_value());
    CHECK_FALSE(make_beta_from_range({.5, .5 + 1e-9}).has_value());
}

TEST_CASE("two of three values lie within one spread of the median") {
    const Distribution d = make_lognormal_median_spread(300, 1.5);
    CHECK(quantile(d, 0.5) == Approx(300).epsilon(1e-14));
    CHECK(cdf(d, 450) - cdf(d, 200) == Approx(0.682689492137086).epsilon(1e-12));
}

TEST_CASE("means and coefficients of variation come out as asked") {
    for (const Distribution& d :
         {make_gamma(1.5, 0.8), make_lognormal_mean_cv(1.5, 0.8)}) {
        CHECK(mean(d) == Approx(1.5).epsilon(1e-13));
        CHECK(sd(d) / mean(d) == Approx(0.8).epsilon(1e-13));
    }
}
