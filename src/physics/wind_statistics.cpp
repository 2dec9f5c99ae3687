#include "physics/wind_statistics.h"

#include <boost/math/special_functions/bessel.hpp>
#include <cmath>

#include "base/expects.h"

namespace flattail::physics {

double compute_weibull_moment(const Weibull& law, double order) {
    FLATTAIL_EXPECTS(law.shape > 0.0 && order > -law.shape);
    return std::pow(law.scale, order) * std::tgamma(1.0 + order / law.shape);
}

double compute_weibull_mean(const Weibull& law) {
    return compute_weibull_moment(law, 1.0);
}

double compute_weibull_variance(const Weibull& law) {
    const double mean = compute_weibull_mean(law);
    return compute_weibull_moment(law, 2.0) - mean * mean;
}

double compute_weibull_quantile(const Weibull& law, double probability) {
    FLATTAIL_EXPECTS(probability >= 0.0 && probability < 1.0);
    return law.scale * std::pow(-std::log1p(-probability), 1.0 / law.shape);
}

double compute_weibull_scale(double mean, double shape) {
    return mean / std::tgamma(1.0 + 1.0 / shape);
}

double compute_mean_resultant(double kappa) {
    FLATTAIL_EXPECTS(kappa >= 0.0);
    // The Bessel functions overflow near 710; long before that the series is exact
    // enough.
    constexpr double kSeriesFrom = 500.0;
    if (kappa > kSeriesFrom) {
        const double x = 1.0 / kappa;
        return 1.0 - x * (0.5 + x * (0.125 + x * 0.125));
    }
    return boost::math::cyl_bessel_i(1, kappa) / boost::math::cyl_bessel_i(0, kappa);
}

double compute_drift_memory(const Drift& drift, double step) {
    FLATTAIL_EXPECTS(drift.scale > 0.0 && step >= 0.0);
    return std::exp(-step / drift.scale);
}

double compute_drift_innovation(const Drift& drift, double step) {
    FLATTAIL_EXPECTS(drift.scale > 0.0 && step >= 0.0);
    return drift.deviation * std::sqrt(-std::expm1(-2.0 * step / drift.scale));
}

double compute_drift_average_variance(const Drift& drift, double span) {
    FLATTAIL_EXPECTS(drift.scale > 0.0 && span >= 0.0);
    const double variance = drift.deviation * drift.deviation;
    const double x = span / drift.scale;
    // Below .01 the closed form loses digits; five terms of its series keep 1e-13.
    if (x < 0.01) {
        return variance *
               (1.0 - x / 3.0 * (1.0 - x / 4.0 * (1.0 - x / 5.0 * (1.0 - x / 6.0))));
    }
    return 2.0 * variance * (x + std::expm1(-x)) / (x * x);
}

}  // namespace flattail::physics
