#include "sampling/poisson.h"

#include <boost/math/special_functions/gamma.hpp>

#include "base/expects.h"
#include "base/lane_math.h"

namespace flattail::sampling {
namespace {

// The search ends here at the latest: beyond, the sum no longer changes in a double.
constexpr double kNegligible = 1e-20;

[[maybe_unused]] bool accepts_mean(double mean) {
    return mean >= 0.0 && mean <= kLargestPoissonMean;
}

}  // namespace

double poisson_probability(int count, double mean) {
    FLATTAIL_EXPECTS(accepts_mean(mean));
    if (count < 0) return 0.0;
    if (mean == 0.0) return count == 0 ? 1.0 : 0.0;
    return boost::math::gamma_p_derivative(count + 1.0, mean);
}

double poisson_tail(int count, double mean) {
    FLATTAIL_EXPECTS(accepts_mean(mean));
    if (count <= 0) return 1.0;
    if (mean == 0.0) return 0.0;
    return boost::math::gamma_p(static_cast<double>(count), mean);
}

int poisson_quantile(double u, double mean) {
    FLATTAIL_EXPECTS(u > 0.0 && u < 1.0 && accepts_mean(mean));
    double probability = base::lane::exp(-mean);
    double share = probability;
    int count = 0;
    while (share < u) {
        ++count;
        probability *= mean / count;
        share += probability;
        if (count > mean && probability < kNegligible) break;
    }
    return count;
}

}  // namespace flattail::sampling
