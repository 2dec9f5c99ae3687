#include "chance/make_distribution.h"

#include <boost/math/special_functions/beta.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <utility>

#include "base/expects.h"

namespace flattail::chance {
namespace {

Distribution make_shape(Shape shape, double a, double b = 0.0, double c = 0.0) {
    Distribution made;
    made.shape = shape;
    made.a = a;
    made.b = b;
    made.c = c;
    FLATTAIL_EXPECTS(find_fault(made) == DistributionFault::kNone);
    return made;
}

Distribution make_listed(Shape shape, std::vector<double> table) {
    Distribution made;
    made.shape = shape;
    made.table = std::move(table);
    FLATTAIL_EXPECTS(find_fault(made) == DistributionFault::kNone);
    return made;
}

// The exponents of a beta distribution are sought between these; beyond them it is two
// points at 0 and 1, or a single point.
constexpr double kSmallestExponent = 1e-2;
constexpr double kLargestExponent = 1e7;
constexpr int kRootBits = 48;

/// The exponent beta that puts a share of 5 % below `low`, given alpha: the share rises
/// with beta, so the logarithm of beta is bracketed and solved (TOMS 748).
std::optional<double> solve_beta_exponent(double alpha, double low) {
    const auto miss = [&](double log_beta) {
        return boost::math::ibeta(alpha, std::exp(log_beta), low) - 0.05;
    };
    const double first = std::log(kSmallestExponent);
    const double last = std::log(kLargestExponent);
    if (miss(first) > 0.0 || miss(last) < 0.0) return std::nullopt;
    std::uintmax_t steps = 200;
    const auto found = boost::math::tools::toms748_solve(
        miss, first, last, boost::math::tools::eps_tolerance<double>(kRootBits), steps);
    return std::exp(0.5 * (found.first + found.second));
}

/// How much the share above `high` misses 5 %, once beta puts 5 % below `low`.
std::optional<double> miss_upper_point(double alpha, const Range90& range) {
    const std::optional<double> beta = solve_beta_exponent(alpha, range.low);
    if (!beta) return std::nullopt;
    return boost::math::ibetac(alpha, *beta, range.high) - 0.05;
}

constexpr double kGridStep = 0.25;

/// Neighbouring points of a grid in ln alpha between which the miss changes its sign.
std::optional<std::pair<double, double>> bracket_log_alpha(const Range90& range) {
    std::optional<double> before;
    const double last = std::log(kLargestExponent);
    for (double x = std::log(kSmallestExponent); x < last; x += kGridStep) {
        const std::optional<double> miss = miss_upper_point(std::exp(x), range);
        if (miss && before && (*miss > 0.0) != (*before > 0.0)) {
            return std::pair{x - kGridStep, x};
        }
        before = miss;
    }
    return std::nullopt;
}

}  // namespace

Distribution make_point(double value) { return make_shape(Shape::kPoint, value); }

Distribution make_normal(double mean, double sd) {
    return make_shape(Shape::kNormal, mean, sd);
}

Distribution make_lognormal_median_spread(double median, double spread) {
    FLATTAIL_EXPECTS(median > 0.0 && spread > 1.0);
    return make_shape(Shape::kLognormal, std::log(median), std::log(spread));
}

Distribution make_lognormal_mean_cv(double mean, double cv) {
    FLATTAIL_EXPECTS(mean > 0.0 && cv > 0.0);
    const double variance = std::log1p(cv * cv);
    return make_shape(Shape::kLognormal, std::log(mean) - 0.5 * variance,
                      std::sqrt(variance));
}

Distribution make_uniform(double low, double high) {
    return make_shape(Shape::kUniform, low, high);
}

Distribution make_gamma(double mean, double cv) {
    FLATTAIL_EXPECTS(mean > 0.0 && cv > 0.0);
    return make_shape(Shape::kGamma, 1.0 / (cv * cv), mean * cv * cv);
}

Distribution make_beta(double alpha, double beta) {
    return make_shape(Shape::kBeta, alpha, beta);
}

Distribution make_weibull(double shape, double scale) {
    return make_shape(Shape::kWeibull, shape, scale);
}

Distribution make_weibull_mean(double shape, double mean) {
    return make_shape(Shape::kWeibull, shape, mean / std::tgamma(1.0 + 1.0 / shape));
}

Distribution make_triangular(double low, double mode, double high) {
    return make_shape(Shape::kTriangular, low, mode, high);
}

Distribution make_wrapped_normal(double mean_rad, double sd_rad) {
    return make_shape(Shape::kWrappedNormal, mean_rad, sd_rad);
}

Distribution make_direction_within(double from_rad, double within_rad) {
    return make_wrapped_normal(from_rad, within_rad / kScoreOf95);
}

Distribution make_von_mises(double mean_rad, double concentration) {
    return make_shape(Shape::kVonMises, mean_rad, concentration);
}

Distribution make_bernoulli(double chance) {
    return make_shape(Shape::kBernoulli, chance);
}

Distribution make_table(std::vector<double> quantiles) {
    return make_listed(Shape::kTable, std::move(quantiles));
}

Distribution make_samples(std::vector<double> values) {
    return make_listed(Shape::kSamples, std::move(values));
}

Distribution make_normal_from_range(const Range90& range) {
    return make_normal(0.5 * (range.low + range.high),
                       0.5 * (range.high - range.low) / kScoreOf95);
}

Distribution make_lognormal_from_range(const Range90& range) {
    FLATTAIL_EXPECTS(range.low > 0.0);
    const double low = std::log(range.low);
    const double high = std::log(range.high);
    return make_shape(Shape::kLognormal, 0.5 * (low + high),
                      0.5 * (high - low) / kScoreOf95);
}

std::optional<Distribution> make_beta_from_range(const Range90& range) {
    FLATTAIL_EXPECTS(range.low > 0.0 && range.low < range.high && range.high < 1.0);
    const auto bracket = bracket_log_alpha(range);
    if (!bracket) return std::nullopt;
    const auto miss = [&](double x) {
        return miss_upper_point(std::exp(x), range).value_or(1.0);
    };
    std::uintmax_t steps = 200;
    const auto found = boost::math::tools::toms748_solve(
        miss, bracket->first, bracket->second,
        boost::math::tools::eps_tolerance<double>(kRootBits), steps);
    const double alpha = std::exp(0.5 * (found.first + found.second));
    const std::optional<double> beta = solve_beta_exponent(alpha, range.low);
    if (!beta) return std::nullopt;
    return make_beta(alpha, *beta);
}

Distribution make_split_normal(const SkewedRange90& range) {
    return make_shape(Shape::kSplitNormal, range.mid,
                      (range.mid - range.low) / kScoreOf95,
                      (range.high - range.mid) / kScoreOf95);
}

Distribution make_split_lognormal(const SkewedRange90& range) {
    FLATTAIL_EXPECTS(range.low > 0.0);
    const double mid = std::log(range.mid);
    return make_shape(Shape::kSplitLognormal, mid,
                      (mid - std::log(range.low)) / kScoreOf95,
                      (std::log(range.high) - mid) / kScoreOf95);
}

Distribution cut_distribution(Distribution distribution, double lower, double upper) {
    distribution.lower = lower;
    distribution.upper = upper;
    FLATTAIL_EXPECTS(find_fault(distribution) == DistributionFault::kNone);
    return distribution;
}

}  // namespace flattail::chance
