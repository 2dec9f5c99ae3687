#include "sampling/score_cells.h"

#include <algorithm>
#include <cmath>

#include "base/lane_normal.h"

namespace flattail::sampling {

using namespace chance;  // quantiles and shares
namespace {

namespace lane = base::lane;

struct Knot {
    double value;
    double slope;  // d value / d score
};

/// dx/dz = phi(z) kept / f(x); 0 where the density leaves no number.
double find_slope(const Distribution& d, const KeptShare& kept, double score,
                  double value) {
    constexpr double kOneOverRootTwoPi = 0.398942280401432677940;
    const double weight = kOneOverRootTwoPi * lane::exp_of_half_square(score) * kept.kept;
    const double slope = weight / density(d, value);
    return std::isfinite(slope) ? slope : 0.0;
}

}  // namespace

double find_value_at_score(const Distribution& d, const KeptShare& kept, double score) {
    const Shares within{lane::normal_cdf(score), lane::normal_cdf(-score)};
    return find_quantile(d, widen_shares(within, kept));
}

std::vector<double> tabulate_quantiles(const Distribution& d, double last_score,
                                       int cells) {
    const KeptShare kept = find_kept_share(d);
    const double width = 2.0 * last_score / cells;
    std::vector<Knot> knots;
    for (int i = 0; i <= cells; ++i) {
        const double score = width * i - last_score;
        const double value = find_value_at_score(d, kept, score);
        knots.push_back({value, find_slope(d, kept, score, value)});
    }
    std::vector<double> coefficients;
    for (std::size_t i = 0; i + 1 < knots.size(); ++i) {
        const double rise = std::max(knots[i + 1].value - knots[i].value, 0.0);
        const double first = std::min(knots[i].slope * width, 3.0 * rise);
        const double last = std::min(knots[i + 1].slope * width, 3.0 * rise);
        coefficients.insert(coefficients.end(),
                            {knots[i].value, first, 3.0 * rise - 2.0 * first - last,
                             first + last - 2.0 * rise});
    }
    return coefficients;
}

}  // namespace flattail::sampling
