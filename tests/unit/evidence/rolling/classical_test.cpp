// Against the BCG vaccine trials (Colditz et al. 1994; Viechtbauer 2010), computed with
// metafor 3.8-1, and against small examples worked out by hand.
#include "evidence/rolling/classical.h"

#include <cmath>

#include "support/catch.h"

using namespace flattail;
using flattail::evidence::pool_classically;

namespace {

const std::vector<double> kBcgValue{-.88931133, -1.58538866, -1.34807315, -1.44155119,
                                    -.21754732, -.78611559,  -1.62089822, .01195233,
                                    -.46941765, -1.37134480, -.33935883,  .44591340,
                                    -.01731395};
const std::vector<double> kBcgVariance{
    .325584765, .194581121, .415367965, .020010032, .051210172, .006905618, .223017248,
    .003961579, .056434210, .073024794, .012412214, .532505845, .071404660};

Approx six_digits(double value) { return Approx(value).epsilon(1e-6).margin(1e-12); }

}  // namespace

TEST_CASE("the BCG trials pool as published") {
    const ClassicalPool pool = pool_classically({kBcgValue, kBcgVariance});
    CHECK(pool.laboratories == 13);
    CHECK(pool.q == six_digits(152.233008082));
    CHECK(pool.tau2 == six_digits(.3087602629));
    CHECK(pool.i2_percent == six_digits(92.11734685));
    CHECK(pool.mean == six_digits(-.7141172221));
    CHECK(pool.standard_error == six_digits(.1787420895));
    CHECK(pool.confidence.low == six_digits(-1.06444528));
    CHECK(pool.confidence.high == six_digits(-.36378916));
    CHECK(pool.hartung_knapp.low == six_digits(-1.10782135));
    CHECK(pool.hartung_knapp.high == six_digits(-.32041309));
    CHECK(pool.prediction.low == six_digits(-1.99883850));
    CHECK(pool.prediction.high == six_digits(.57060405));
    CHECK(pool.reml_mean == six_digits(-.71453235));
    // metafor stops at a change of 1e-5.
    CHECK(pool.reml_tau2 == Approx(.31324333).epsilon(2e-5));
}

// Q = 8.644, so tau2 = (Q - 2) / (sum w - sum w^2 / sum w), by hand.
TEST_CASE("three laboratories that disagree pool by their scatter") {
    const std::vector<double> value{10, 20, 40}, variance{16, 25, 100};
    const ClassicalPool pool = pool_classically({value, variance});
    CHECK(pool.q == six_digits(8.64444444));
    CHECK(pool.tau2 == six_digits(106.0283687943));
    CHECK(pool.mean == six_digits(20.7314082497));
    CHECK(pool.standard_error == six_digits(6.9537647437));
    CHECK(pool.i2_percent == six_digits(76.86375321));
}

TEST_CASE("laboratories that agree pool by their own errors alone") {
    const std::vector<double> value{10, 12, 11}, variance{16, 25, 100};
    const ClassicalPool pool = pool_classically({value, variance});
    CHECK(pool.tau2 == 0.0);
    CHECK(pool.reml_tau2 == Approx(0.0).margin(1e-9));
    CHECK(pool.mean == six_digits(10.8));
    CHECK(pool.standard_error == six_digits(2.98142397));
    CHECK(pool.i2_percent == 0.0);
}

TEST_CASE("two laboratories give no prediction, one gives no pool at all") {
    const std::vector<double> value{1, 3}, variance{1, 1};
    const ClassicalPool two = pool_classically({value, variance});
    CHECK(two.mean == six_digits(2.0));
    CHECK(std::isinf(two.prediction.high));
    const ClassicalPool one =
        pool_classically({std::span(value).first(1), std::span(variance).first(1)});
    CHECK(one.laboratories == 1);
    CHECK(one.standard_error == 0.0);
}
