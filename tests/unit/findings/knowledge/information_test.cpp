#include "findings/knowledge/information.h"

#include <cmath>
#include <vector>

#include "support/catch.h"
#include "unit/findings/knowledge/made_days.h"

using namespace flattail::findings;

namespace {

// Losses with chances .5, .3, .2: A 0, 90, 240; B 40, 60, 80; expected 75 and 54.
const std::vector<double> kLoss{0, 40, 90, 60, 240, 80}, kChance{.5, .3, .2};
const StatesOfKnowledge kStates{kLoss, kChance, 2};

// Figure of setup 1 minus that of setup 0: 10 + 12 z0 + 16 z1, sd 20 in all.
MadeDays normal_difference(double luck_sd) {
    const MadeLaw law{3, 2, luck_sd, [](const std::vector<double>& z, std::size_t k) {
                          return k == 0 ? 9500 : 9510 + 12 * z[0] + 16 * z[1];
                      }};
    return make_days(law, 40000, 1);
}

Estimate worth(const MadeDays& days, const std::vector<double>& known) {
    const KnowledgeModel model = fit_days(days, {3, {}});
    return value_of_learning(model, days.draws(), known, Better::kSmaller);
}

bool agrees(const Estimate& estimate, double value) {
    return std::fabs(estimate.value - value) <= 4.9 * estimate.standard_error;
}

}  // namespace

TEST_CASE("knowing the state is worth what the decision table says") {
    // Hand calculation: choosing B costs 54, knowing the state 0 + 18 + 16 = 34.
    CHECK(value_of_knowing(kStates, Better::kSmaller) == Approx(20));
    const std::vector<std::uint8_t> three_apart{0, 0, 1}, two_apart{0, 1, 0};
    CHECK(value_of_knowing_group(kStates, three_apart, Better::kSmaller) == Approx(11));
    CHECK(value_of_knowing_group(kStates, two_apart, Better::kSmaller) ==
          Approx(0).margin(1e-12));
    const std::vector<std::uint8_t> apart{0, 1, 2}, together{4, 4, 4};
    CHECK(value_of_knowing_group(kStates, apart, Better::kSmaller) == Approx(20));
    CHECK(value_of_knowing_group(kStates, together, Better::kSmaller) ==
          Approx(0).margin(1e-12));
}

TEST_CASE("gains and losses mirror one another") {
    std::vector<double> gain;
    for (const double loss : kLoss) gain.push_back(-loss);
    CHECK(value_of_knowing({gain, kChance, 2}, Better::kLarger) == Approx(20));
}

TEST_CASE("the normal closed form has its computed value") {
    // 20 phi(.5) - 10 Phi(-.5) = 3.95593114803 (SciPy).
    CHECK(value_of_knowing_normal(10, 20) == Approx(3.95593114803).epsilon(1e-11));
    CHECK(value_of_knowing_normal(-10, 20) == Approx(3.95593114803).epsilon(1e-11));
    CHECK(value_of_knowing_normal(0, 20) == Approx(20 / std::sqrt(2 * std::acos(-1.0))));
    CHECK(value_of_knowing_normal(10, 0) == 0);
}

TEST_CASE("the regression finds the value of knowing all, one fact, or none") {
    for (const double luck_sd : {1.0, 60.0}) {
        const MadeDays days = normal_difference(luck_sd);
        const Estimate all = worth(days, {1, 1, 1});
        CHECK(agrees(all, 3.95593114803));
        CHECK(all.standard_error < .5);
        CHECK(agrees(worth(days, {1, 0, 0}), value_of_knowing_normal(10, 12)));
        CHECK(agrees(worth(days, {0, 1, 0}), value_of_knowing_normal(10, 16)));
        CHECK(worth(days, {0, 0, 1}).value == Approx(0).margin(.02));
        CHECK_FALSE(agrees(worth(days, {1, 0, 0}), 3.95593114803));
    }
}

TEST_CASE("a test that leaves doubt is worth the value of the part it removes") {
    // Learning half the variance of both facts: a normal difference of sd 20 sqrt(.5).
    const MadeDays days = normal_difference(10);
    CHECK(agrees(worth(days, {.5, .5, 0}),
                 value_of_knowing_normal(10, 20 * std::sqrt(.5))));
    CHECK(share_learnt_by_measuring(2, 2) == Approx(.5));
    CHECK(share_learnt_by_measuring(3, 4) == Approx(9.0 / 25));
    // Gamma prior worth 1200 km, 600 km ridden: 600/1800 of the variance.
    CHECK(share_learnt_by_riding(1.2e6, 6e5) == Approx(1.0 / 3));
    CHECK(share_learnt_by_riding(1.2e6, 0) == 0);
}
