#include "findings/knowledge/effects.h"

#include <cmath>

#include "support/catch.h"
#include "unit/findings/knowledge/made_days.h"

using namespace flattail::findings;

namespace {

// Difference 1 minus 0: 8 z0 + 3 (z1^2 - 1) + 4 z0 z2. Variances 64, 18, 16 of 98.
MadeLaw three_facts() {
    return {4, 2, 5, [](const std::vector<double>& z, std::size_t k) {
                return k == 0 ? 9500.0
                              : 9500 + 8 * z[0] + 3 * (z[1] * z[1] - 1) + 4 * z[0] * z[2];
            }};
}

bool agrees(const Estimate& estimate, double value) {
    return std::fabs(estimate.value - value) <= 4.9 * estimate.standard_error;
}

}  // namespace

TEST_CASE("the effect of a fact is its swing from the 10th to the 90th percentile") {
    const KnowledgeModel model =
        fit_days(make_days(three_facts(), 20000, 1), {4, {{0, 2}}});
    const auto effects = input_effects(model, {1, 0});
    CHECK(agrees(effects[0].swing, 2 * 1.2815515655446 * 8));
    CHECK(agrees(effects[0].at_low, -1.2815515655446 * 8));
    CHECK(agrees(effects[1].swing, 0));
    // 3 (1.28155^2 - 1) at both ends.
    CHECK(agrees(effects[1].at_high, 3 * (1.2815515655446 * 1.2815515655446 - 1)));
    CHECK(agrees(effects[3].swing, 0));
    CHECK(effects[0].swing.standard_error < .5);
}

TEST_CASE("variance shares of facts and groups are those of the Hermite terms") {
    // Sudret 2008: first order 64/98, 18/98, 0; total 80/98, 18/98, 16/98.
    const KnowledgeModel model =
        fit_days(make_days(three_facts(), 20000, 2), {4, {{0, 2}}});
    const auto share = [&](std::vector<std::size_t> group) {
        return variance_share(model, {1, 0}, group);
    };
    CHECK(agrees(share({0}).first, 64.0 / 98));
    CHECK(agrees(share({0}).total, 80.0 / 98));
    CHECK(agrees(share({1}).first, 18.0 / 98));
    CHECK(share({2}).first.value == Approx(0).margin(.002));
    CHECK(agrees(share({2}).total, 16.0 / 98));
    CHECK(agrees(share({0, 2}).first, 80.0 / 98));
    CHECK(share({0, 1, 2, 3}).first.value == Approx(1));
    CHECK_FALSE(agrees(share({0}).first, 80.0 / 98));
}

TEST_CASE("products are chosen among the facts that move the answer most") {
    const KnowledgeModel model = fit_days(make_days(three_facts(), 4096, 3), {4, {}});
    using Pairs = std::vector<std::pair<std::size_t, std::size_t>>;
    CHECK(choose_products(model, 0, 2) == Pairs{{0, 1}});
    CHECK(choose_products(model, 0, 4).size() == 6);
    CHECK(choose_products(model, 0, 1).empty());
}
