// Means and standard deviations: closed forms where there are any, else an integral over
// the normal score or over the pieces of a table.
#include <algorithm>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <vector>

#include "base/expects.h"
#include "base/lane_normal.h"
#include "chance/distribution.h"
#include "chance/quantile_shares.h"
#include "chance/von_mises.h"

namespace flattail::chance {
namespace {

namespace lane = base::lane;

/// Mean and mean square about an origin chosen by the caller.
struct Moments {
    double first = 0.0;
    double second = 0.0;
};

/// E[e^(s Z)] of a half-normal pair with scales below and above, each half weighing 1/2.
double find_split_exponential(double below, double above) {
    return std::exp(0.5 * below * below) * lane::normal_cdf(-below) +
           std::exp(0.5 * above * above) * lane::normal_cdf(above);
}

double find_weibull_moment(const Distribution& d, int power) {
    return std::pow(d.b, power) * std::tgamma(1.0 + power / d.a);
}

/// Moments of equal shares spread evenly over the pieces of a table, cut at the bounds.
Moments integrate_table(const Distribution& d, double origin) {
    double weight = 0.0;
    Moments sum;
    for (std::size_t i = 0; i + 1 < d.table.size(); ++i) {
        const double low = std::max(d.table[i], d.lower) - origin;
        const double high = std::min(d.table[i + 1], d.upper) - origin;
        if (high < low) continue;
        const double width = d.table[i + 1] - d.table[i];
        const double share = width > 0.0 ? (high - low) / width : 1.0;
        weight += share;
        sum.first += share * 0.5 * (low + high);
        sum.second += share * (low * low + low * high + high * high) / 3.0;
    }
    return {sum.first / weight, sum.second / weight};
}

Moments average_samples(const Distribution& d, double origin) {
    Moments sum;
    for (const double sample : d.table) {
        sum.first += sample - origin;
        sum.second += (sample - origin) * (sample - origin);
    }
    const auto count = static_cast<double>(d.table.size());
    return {sum.first / count, sum.second / count};
}

/// Scores at which the quantile function has a corner: pieces in between are smooth.
std::vector<double> list_corners(const Distribution& d) {
    double corner = d.a;
    if (d.shape == Shape::kTriangular) corner = d.b;
    if (d.shape == Shape::kSplitLognormal) corner = std::exp(d.a);
    const double share = cdf(d, corner);
    std::vector<double> scores{-8.2, 8.2};
    if (share > 1e-15 && share < 1.0 - 1e-15) {
        scores.insert(scores.begin() + 1, lane::normal_quantile(share));
    }
    return scores;
}

template <class Function>
double integrate_over_scores(const Distribution& d, const Function& value) {
    constexpr double kOneOverRootTwoPi = 0.398942280401432677940;
    const KeptShare kept = find_kept_share(d);
    const auto weighted = [&](double z) {
        const Shares within{lane::normal_cdf(z), lane::normal_cdf(-z)};
        const double x = find_quantile(d, widen_shares(within, kept));
        return value(x) * kOneOverRootTwoPi * lane::exp_of_half_square(z);
    };
    const std::vector<double> ends = list_corners(d);
    double sum = 0.0;
    for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
        sum += boost::math::quadrature::gauss_kronrod<double, 31>::integrate(
            weighted, ends[i], ends[i + 1], 9, 1e-10);
    }
    return sum;
}

double find_bounded_mean(const Distribution& d) {
    const double origin = quantile(d, 0.5);
    if (d.shape == Shape::kTable) return origin + integrate_table(d, origin).first;
    return origin + integrate_over_scores(d, [&](double x) { return x - origin; });
}

double find_bounded_variance(const Distribution& d) {
    const double origin = find_bounded_mean(d);
    if (d.shape == Shape::kTable) return integrate_table(d, origin).second;
    return integrate_over_scores(d,
                                 [&](double x) { return (x - origin) * (x - origin); });
}

double find_split_lognormal_variance(const Distribution& d) {
    const double mean_ratio = find_split_exponential(d.b, d.c);
    const double square_ratio = find_split_exponential(2.0 * d.b, 2.0 * d.c);
    return std::exp(2.0 * d.a) * (square_ratio - mean_ratio * mean_ratio);
}

double find_split_normal_variance(const Distribution& d) {
    const double step = d.c - d.b;
    return 0.5 * (d.b * d.b + d.c * d.c) - step * step / lane::kTwoPi;
}

double find_triangle_variance(const Distribution& d) {
    const double p = d.b - d.a;
    const double q = d.c - d.b;
    return (p * p + p * q + q * q) / 18.0;
}

double find_variance(const Distribution& d) {
    switch (d.shape) {
        case Shape::kPoint:
            return 0.0;
        case Shape::kNormal:
        case Shape::kWrappedNormal:
            return d.b * d.b;
        case Shape::kLognormal:
            return std::expm1(d.b * d.b) * std::exp(2.0 * d.a + d.b * d.b);
        case Shape::kSplitNormal:
            return find_split_normal_variance(d);
        case Shape::kSplitLognormal:
            return find_split_lognormal_variance(d);
        case Shape::kUniform:
            return (d.b - d.a) * (d.b - d.a) / 12.0;
        case Shape::kBeta:
            return d.a * d.b / ((d.a + d.b) * (d.a + d.b) * (d.a + d.b + 1.0));
        case Shape::kGamma:
            return d.a * d.b * d.b;
        case Shape::kWeibull:
            return find_weibull_moment(d, 2) - std::pow(find_weibull_moment(d, 1), 2);
        case Shape::kTriangular:
            return find_triangle_variance(d);
        case Shape::kVonMises:
            return -2.0 * std::log(von_mises_resultant(d.b));
        case Shape::kTable:
            return find_bounded_variance(d);
        case Shape::kSamples:
            return average_samples(d, mean(d)).second;
        case Shape::kBernoulli:
            return d.a * (1.0 - d.a);
    }
    return 0.0;
}

}  // namespace

double mean(const Distribution& d) {
    FLATTAIL_EXPECTS(find_fault(d) == DistributionFault::kNone);
    if (is_bounded(d)) return find_bounded_mean(d);
    switch (d.shape) {
        case Shape::kPoint:
        case Shape::kNormal:
        case Shape::kWrappedNormal:
        case Shape::kVonMises:
        case Shape::kBernoulli:
            return d.a;
        case Shape::kLognormal:
            return std::exp(d.a + 0.5 * d.b * d.b);
        case Shape::kSplitNormal:
            return d.a + (d.c - d.b) / std::sqrt(lane::kTwoPi);
        case Shape::kSplitLognormal:
            return std::exp(d.a) * find_split_exponential(d.b, d.c);
        case Shape::kUniform:
            return 0.5 * (d.a + d.b);
        case Shape::kBeta:
            return d.a / (d.a + d.b);
        case Shape::kGamma:
            return d.a * d.b;
        case Shape::kWeibull:
            return find_weibull_moment(d, 1);
        case Shape::kTriangular:
            return (d.a + d.b + d.c) / 3.0;
        case Shape::kTable:
            return integrate_table(d, 0.0).first;
        case Shape::kSamples:
            return average_samples(d, 0.0).first;
    }
    return d.a;
}

double sd(const Distribution& d) {
    FLATTAIL_EXPECTS(find_fault(d) == DistributionFault::kNone);
    return std::sqrt(is_bounded(d) ? find_bounded_variance(d) : find_variance(d));
}

}  // namespace flattail::chance
