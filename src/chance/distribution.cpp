#include "chance/distribution.h"

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/gamma.hpp>
#include <cmath>

#include "base/expects.h"
#include "base/lane_normal.h"
#include "chance/quantile_shares.h"
#include "chance/von_mises.h"

namespace flattail::chance {
namespace {

namespace lane = base::lane;

// Bounds that keep less than this leave too few digits of the shares to draw from.
constexpr double kSmallestKept = 1e-9;

bool is_finite(const Distribution& d) {
    return std::isfinite(d.a) && std::isfinite(d.b) && std::isfinite(d.c) &&
           !std::isnan(d.lower) && !std::isnan(d.upper) &&
           std::all_of(d.table.begin(), d.table.end(),
                       [](double x) { return std::isfinite(x); });
}

bool can_be_cut(Shape shape) {
    return shape != Shape::kPoint && shape != Shape::kSamples &&
           shape != Shape::kBernoulli && !is_direction(shape);
}

DistributionFault require(bool holds, DistributionFault fault) {
    return holds ? DistributionFault::kNone : fault;
}

DistributionFault find_table_fault(const Distribution& d) {
    if (d.table.size() < 2) return DistributionFault::kTableEmpty;
    return require(std::is_sorted(d.table.begin(), d.table.end()),
                   DistributionFault::kEndsNotInOrder);
}

DistributionFault find_parameter_fault(const Distribution& d) {
    using Fault = DistributionFault;
    switch (d.shape) {
        case Shape::kPoint:
            return Fault::kNone;
        case Shape::kNormal:
        case Shape::kLognormal:
        case Shape::kWrappedNormal:
        case Shape::kVonMises:
            return require(d.b > 0.0, Fault::kSpreadNotPositive);
        case Shape::kSplitNormal:
        case Shape::kSplitLognormal:
            return require(d.b > 0.0 && d.c > 0.0, Fault::kSpreadNotPositive);
        case Shape::kUniform:
            return require(d.a < d.b, Fault::kEndsNotInOrder);
        case Shape::kBeta:
        case Shape::kGamma:
        case Shape::kWeibull:
            return require(d.a > 0.0 && d.b > 0.0, Fault::kSpreadNotPositive);
        case Shape::kTriangular:
            return require(d.a <= d.b && d.b <= d.c && d.a < d.c, Fault::kEndsNotInOrder);
        case Shape::kTable:
            return find_table_fault(d);
        case Shape::kSamples:
            return require(!d.table.empty(), Fault::kTableEmpty);
        case Shape::kBernoulli:
            return require(d.a >= 0.0 && d.a <= 1.0, Fault::kChanceOutOfRange);
    }
    return Fault::kNone;
}

DistributionFault find_bounds_fault(const Distribution& d) {
    if (!is_bounded(d)) return DistributionFault::kNone;
    if (!can_be_cut(d.shape)) return DistributionFault::kBoundsNotAllowed;
    return require(d.lower < d.upper && find_kept_share(d).kept >= kSmallestKept,
                   DistributionFault::kBoundsEmpty);
}

double find_triangle_density(const Distribution& d, double x) {
    const double width = d.c - d.a;
    if (x < d.a || x > d.c) return 0.0;
    if (x < d.b) return 2.0 * (x - d.a) / (width * (d.b - d.a));
    return d.b < d.c ? 2.0 * (d.c - x) / (width * (d.c - d.b)) : 2.0 / width;
}

double find_weibull_density(double x, double shape, double scale) {
    if (x <= 0.0) return 0.0;
    const double ratio = x / scale;
    return shape / scale * std::pow(ratio, shape - 1.0) *
           std::exp(-std::pow(ratio, shape));
}

double find_normal_density(double z) {
    constexpr double kOneOverRootTwoPi = 0.398942280401432677940;
    return kOneOverRootTwoPi * lane::exp_of_half_square(z);
}

double find_split_density(double x, double centre, double below, double above) {
    const double sd = x < centre ? below : above;
    return find_normal_density((x - centre) / sd) / sd;
}

double rank_sample(std::vector<double> values, double u) {
    const auto n = static_cast<double>(values.size());
    const auto rank = std::min(static_cast<std::ptrdiff_t>(n * u),
                               static_cast<std::ptrdiff_t>(values.size()) - 1);
    std::nth_element(values.begin(), values.begin() + rank, values.end());
    return values[static_cast<std::size_t>(rank)];
}

}  // namespace

bool is_direction(Shape shape) {
    return shape == Shape::kWrappedNormal || shape == Shape::kVonMises;
}

bool is_bounded(const Distribution& d) {
    return !(std::isinf(d.lower) && d.lower < 0.0 && std::isinf(d.upper) &&
             d.upper > 0.0);
}

DistributionFault find_fault(const Distribution& d) {
    if (!is_finite(d)) return DistributionFault::kNotFinite;
    const DistributionFault fault = find_parameter_fault(d);
    return fault != DistributionFault::kNone ? fault : find_bounds_fault(d);
}

double quantile(const Distribution& d, double u) {
    FLATTAIL_EXPECTS(u > 0.0 && u < 1.0);
    FLATTAIL_EXPECTS(find_parameter_fault(d) == DistributionFault::kNone);
    if (is_direction(d.shape)) {
        return lane::wrap_angle(d.a + find_quantile(d, {u, 1.0 - u}));
    }
    if (d.shape == Shape::kSamples) return rank_sample(d.table, u);
    if (!is_bounded(d)) return find_quantile(d, {u, 1.0 - u});
    const Shares shares = widen_shares({u, 1.0 - u}, find_kept_share(d));
    return std::clamp(find_quantile(d, shares), d.lower, d.upper);
}

double cdf(const Distribution& d, double x) {
    const double share = find_share_below(d, x);
    if (!is_bounded(d)) return share;
    const KeptShare kept = find_kept_share(d);
    return std::clamp((share - kept.cut_below) / kept.kept, 0.0, 1.0);
}

double density(const Distribution& d, double x) {
    switch (d.shape) {
        case Shape::kNormal:
            return find_split_density(x, d.a, d.b, d.b);
        case Shape::kSplitNormal:
            return find_split_density(x, d.a, d.b, d.c);
        case Shape::kLognormal:
            return x > 0.0 ? find_split_density(std::log(x), d.a, d.b, d.b) / x : 0.0;
        case Shape::kSplitLognormal:
            return x > 0.0 ? find_split_density(std::log(x), d.a, d.b, d.c) / x : 0.0;
        case Shape::kUniform:
            return x >= d.a && x <= d.b ? 1.0 / (d.b - d.a) : 0.0;
        case Shape::kBeta:
            if (x <= 0.0 || x >= 1.0) return 0.0;
            return boost::math::pdf(boost::math::beta_distribution<>(d.a, d.b), x);
        case Shape::kGamma:
            if (x <= 0.0) return 0.0;
            return boost::math::pdf(boost::math::gamma_distribution<>(d.a, d.b), x);
        case Shape::kWeibull:
            return find_weibull_density(x, d.a, d.b);
        case Shape::kTriangular:
            return find_triangle_density(d, x);
        case Shape::kWrappedNormal:
            return find_split_density(x, 0.0, d.b, d.b);
        case Shape::kVonMises:
            return von_mises_density(x, d.b);
        case Shape::kPoint:
        case Shape::kTable:
        case Shape::kSamples:
        case Shape::kBernoulli:
            break;
    }
    FLATTAIL_EXPECTS(d.shape < Shape::kTable && d.shape != Shape::kPoint);
    return 0.0;
}

}  // namespace flattail::chance
