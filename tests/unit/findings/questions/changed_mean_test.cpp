#include "findings/questions/changed_mean.h"

#include <cmath>
#include <vector>

#include "findings/sample/means.h"
#include "support/catch.h"

using namespace flattail::findings;

namespace {

const std::vector<double> kBefore{1, 4, 2, 9, 3, 5}, kOnes(6, 1.0);
const Design kPlain{kOnes, {}};

}  // namespace

TEST_CASE("no change leaves the whole mean and its error to the bit") {
    const Estimate whole{-83.25, .5};
    const Estimate same =
        estimate_changed_mean({whole, 60}, {kBefore, kBefore, kPlain, kPlain});
    CHECK(same.value == whole.value);
    CHECK(same.standard_error == whole.standard_error);
}

TEST_CASE("the same step on every day moves the mean and not its error") {
    std::vector<double> after = kBefore;
    for (double& value : after) value += 7;
    const Estimate moved =
        estimate_changed_mean({{10, .5}, 60}, {kBefore, after, kPlain, kPlain});
    CHECK(moved.value == Approx(17));
    CHECK(moved.standard_error == Approx(.5));
}

TEST_CASE("over all days of the whole the answer is the plain mean after the change") {
    // Whole and before are alike, so nothing is mended; and so must be the error:
    // variances and covariance of the same days put together.
    const std::vector<double> after{2, 1, 6, 4, 8, 5};
    const Estimate whole = estimate_mean(kBefore, kPlain);
    const Estimate found =
        estimate_changed_mean({whole, 6}, {kBefore, after, kPlain, kPlain});
    const Estimate plain = estimate_mean(after, kPlain);
    CHECK(found.value == Approx(plain.value));
    CHECK(found.standard_error == Approx(plain.standard_error));
}

TEST_CASE("strata and weights count on both sides of the change") {
    const std::vector<double> weight{2, 2, 2, .5, .5, .5}, other{1, 1, 1, 2, 2, 2};
    const std::vector<std::uint8_t> stratum{0, 0, 0, 1, 1, 1};
    const std::vector<double> after{2, 1, 6, 4, 8, 5};
    const Design before{weight, stratum}, later{other, stratum};
    const Estimate found = estimate_changed_mean({estimate_mean(kBefore, before), 6},
                                                 {kBefore, after, before, later});
    const Estimate plain = estimate_mean(after, later);
    CHECK(found.value == Approx(plain.value));
    CHECK(found.standard_error == Approx(plain.standard_error));
}

TEST_CASE("where every day comes to the same after the change, that is the answer") {
    // A goal that nobody meets any more: no setup is ahead, whatever the days before.
    const std::vector<double> none(6, 0.0);
    const Estimate found =
        estimate_changed_mean({{.25, .1}, 60}, {kBefore, none, kPlain, kPlain});
    CHECK(found.value == 0.0);
    CHECK(found.standard_error == 0.0);
}

TEST_CASE("half the effect keeps half of what the first days were off by") {
    std::vector<double> after = kBefore;
    for (double& value : after) value *= .5;
    const Estimate found =
        estimate_changed_mean({{10, .5}, 60}, {kBefore, after, kPlain, kPlain});
    CHECK(found.value == Approx(5));
    CHECK(found.standard_error == Approx(.25));
}

TEST_CASE("a change alone has the error of the days' own differences") {
    const std::vector<double> after{2, 1, 6, 4, 8, 5};
    std::vector<double> difference(6);
    for (std::size_t i = 0; i < 6; ++i) difference[i] = after[i] - kBefore[i];
    const Estimate found = estimate_change({kBefore, after, kPlain, kPlain});
    const Estimate plain = estimate_mean(difference, kPlain);
    CHECK(found.value == Approx(plain.value));
    CHECK(found.standard_error == Approx(plain.standard_error));
}
