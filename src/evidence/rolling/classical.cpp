#include "evidence/rolling/classical.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <limits>

namespace flattail::evidence {

namespace {

constexpr double kUpperShare = 0.975;  // of a 95 % interval
constexpr int kMostSteps = 200;
constexpr double kSettled = 1e-12;  // change of the variance over itself

// Sums with weights 1 / (variance + tau2).
struct Weighted {
    double weight = 0.0;
    double weight2 = 0.0;
    double mean = 0.0;
    double q = 0.0;  // weighted squares about the mean
};

Weighted weigh(const Estimates& found, double tau2) {
    Weighted sum;
    for (std::size_t i = 0; i < found.value.size(); ++i) {
        const double w = 1.0 / (found.variance[i] + tau2);
        sum.weight += w;
        sum.weight2 += w * w;
        sum.mean += w * found.value[i];
    }
    sum.mean /= sum.weight;
    for (std::size_t i = 0; i < found.value.size(); ++i) {
        const double off = found.value[i] - sum.mean;
        sum.q += off * off / (found.variance[i] + tau2);
    }
    return sum;
}

// Fisher scoring of the restricted likelihood (Viechtbauer 2005, eq. 13), held at zero.
double estimate_reml_tau2(const Estimates& found, double start) {
    double tau2 = start;
    for (int step = 0; step < kMostSteps; ++step) {
        const Weighted sum = weigh(found, tau2);
        double top = 0.0, weight3 = 0.0;
        for (std::size_t i = 0; i < found.value.size(); ++i) {
            const double w = 1.0 / (found.variance[i] + tau2);
            const double off = found.value[i] - sum.mean;
            top += w * w * off * off - w;
            weight3 += w * w * w;
        }
        top += sum.weight2 / sum.weight;
        const double information = sum.weight2 - 2.0 * weight3 / sum.weight +
                                   sum.weight2 * sum.weight2 / (sum.weight * sum.weight);
        const double next = std::max(0.0, tau2 + top / information);
        const bool settled = std::abs(next - tau2) <= kSettled * (next + tau2);
        tau2 = next;
        if (settled) break;
    }
    return tau2;
}

Interval about(double middle, double half) { return {middle - half, middle + half}; }

}  // namespace

ClassicalPool pool_classically(const Estimates& found) {
    ClassicalPool pool;
    pool.laboratories = static_cast<int>(found.value.size());
    if (pool.laboratories < 2) return pool;
    const double freedom = pool.laboratories - 1.0;
    const Weighted fixed = weigh(found, 0.0);
    pool.q = fixed.q;
    pool.i2_percent = fixed.q > freedom ? 100.0 * (fixed.q - freedom) / fixed.q : 0.0;
    pool.tau2 = std::max(
        0.0, (fixed.q - freedom) / (fixed.weight - fixed.weight2 / fixed.weight));
    const Weighted random = weigh(found, pool.tau2);
    pool.mean = random.mean;
    pool.standard_error = 1.0 / std::sqrt(random.weight);
    const boost::math::normal_distribution<double> normal;
    pool.confidence = about(
        pool.mean, pool.standard_error * boost::math::quantile(normal, kUpperShare));
    const boost::math::students_t_distribution<double> t(freedom);
    const double knapp = std::sqrt(random.q / freedom / random.weight);
    pool.hartung_knapp = about(pool.mean, knapp * boost::math::quantile(t, kUpperShare));
    const double infinite = std::numeric_limits<double>::infinity();
    pool.prediction = {-infinite, infinite};
    if (pool.laboratories > 2) {
        const boost::math::students_t_distribution<double> next(freedom - 1.0);
        const double sd =
            std::sqrt(pool.tau2 + pool.standard_error * pool.standard_error);
        pool.prediction = about(pool.mean, sd * boost::math::quantile(next, kUpperShare));
    }
    pool.reml_tau2 = estimate_reml_tau2(found, pool.tau2);
    pool.reml_mean = weigh(found, pool.reml_tau2).mean;
    return pool;
}

}  // namespace flattail::evidence
