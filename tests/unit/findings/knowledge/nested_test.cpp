#include "findings/knowledge/nested.h"

#include <cmath>
#include <random>

#include "findings/knowledge/information.h"
#include "support/catch.h"
#include "unit/findings/knowledge/made_days.h"

using namespace flattail::findings;

namespace {

// Setup 1 minus setup 0: 10 + 12 z0 + 16 z1 + luck of sd 60 each; only z0 is learnt. By
// the closed form for a normal difference this is worth value_of_knowing_normal(10, 12).
void ride_state(std::size_t state, std::span<const std::span<double>> figure) {
    std::mt19937_64 random(1000 + state);
    std::normal_distribution<double> normal;
    const double learnt = normal(random);
    for (std::size_t day = 0; day < figure[0].size(); ++day) {
        figure[0][day] = 9500 + 60 * normal(random);
        figure[1][day] = 9510 + 12 * learnt + 16 * normal(random) + 60 * normal(random);
    }
}

const NestedPlan kPlan{4000, 64};
const double kWorth = value_of_knowing_normal(10, 12);

bool agrees(const Estimate& estimate, double value) {
    return std::fabs(estimate.value - value) <= 4.9 * estimate.standard_error;
}

}  // namespace

TEST_CASE("the nested run with its halves meets the closed form, the raw one does not") {
    // Raw: the difference of two averages of 64 days has sd 10.8 of its own, so it is
    // worth about value_of_knowing_normal(10, hypot(12, 10.8)), three times as much.
    const Estimate found = value_by_nested_run(kPlan, 2, ride_state, Better::kSmaller);
    CHECK(agrees(found, kWorth));
    CHECK(found.standard_error < .1 * kWorth);
    const Estimate raw = value_by_raw_nested_run(kPlan, 2, ride_state, Better::kSmaller);
    CHECK_FALSE(agrees(raw, kWorth));
    CHECK(raw.value > kWorth);
}

TEST_CASE("the regression, the nested run and the closed form tell one worth") {
    const MadeLaw law{2, 2, 60, [](const std::vector<double>& z, std::size_t k) {
                          return k == 0 ? 9500 : 9510 + 12 * z[0] + 16 * z[1];
                      }};
    const MadeDays days = make_days(law, 60000, 2);
    const KnowledgeModel model = fit_days(days, {2, {}});
    const std::vector<double> known{1, 0};
    const Estimate by_regression =
        value_of_learning(model, days.draws(), known, Better::kSmaller);
    const Estimate nested = value_by_nested_run(kPlan, 2, ride_state, Better::kSmaller);
    CHECK(agrees(by_regression, kWorth));
    CHECK(std::fabs(by_regression.value - nested.value) <=
          4.9 * std::hypot(by_regression.standard_error, nested.standard_error));
}

TEST_CASE("where one setup is always best knowing is worth nothing in the nested run") {
    const auto apart = [](std::size_t state, std::span<const std::span<double>> figure) {
        ride_state(state, figure);
        for (double& value : figure[1]) value += 1000;
    };
    CHECK(value_by_nested_run(kPlan, 2, apart, Better::kSmaller).value ==
          Approx(0).margin(1e-9));
}
