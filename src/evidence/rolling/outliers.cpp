#include "evidence/rolling/outliers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flattail::evidence {

namespace {

// A test whose value is this near to half or twice what was expected was probably
// written per tyre instead of per pair, or the other way round.
constexpr double kNearFactorTwo = 0.15;

std::string explain(double crr, double expected) {
    const char* side = crr < expected ? "lower" : "higher";
    std::string text = fmt::format("{:.5f} {} than the other tests let expect",
                                   std::abs(crr - expected), side);
    const double ratio = crr / expected;
    if (std::abs(ratio - 2.0) < 2.0 * kNearFactorTwo) text += "; twice: per pair?";
    if (std::abs(ratio - 0.5) < 0.5 * kNearFactorTwo) text += "; half: per tyre?";
    return text;
}

}  // namespace

// The test becomes a product of its own beside the one it tested; how far the two then
// lie apart, and how sure that is, is its distance from all others (mean-shift model).
void find_outliers(std::vector<RollingTest>& tests, const TestTable& table,
                   MakerRows makers, const RollingPrior& prior) {
    TestTable extended = table;
    extended.products.emplace_back();
    const auto apart = static_cast<Eigen::Index>(table.products.size()) - 1;
    for (RollingTest& test : tests) {
        if (!test.used || (test.by_maker && makers == MakerRows::kLeftOut)) continue;
        const std::string product = test.product;
        // No product has a name without letters.
        test.product.clear();
        const std::vector<Cell> cells = make_cells(tests, extended, makers);
        test.product = product;
        const RollingPosterior posterior(cells, static_cast<int>(apart) + 2, prior);
        const auto found =
            std::find(table.products.begin(), table.products.end(), product);
        const Eigen::Index own = found - table.products.begin() - 1;
        const Eigen::VectorXd mean = posterior.mean();
        const Eigen::MatrixXd covariance = posterior.covariance();
        double shift = mean(apart), variance = covariance(apart, apart);
        if (own >= 0) {
            shift -= mean(own);
            variance += covariance(own, own) - 2.0 * covariance(apart, own);
        }
        test.score = shift / std::sqrt(variance);
        test.stands_out = std::abs(test.score) > kStandsOut;
        if (test.stands_out) test.note = explain(test.crr, test.crr - shift);
    }
}

}  // namespace flattail::evidence
