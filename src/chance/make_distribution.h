// Distributions from the two or three numbers that a person can judge.
#pragma once

#include <optional>
#include <vector>

#include "chance/distribution.h"

namespace flattail::chance {

/// Nine in ten values lie between the two.
struct Range90 {
    double low = 0.0;
    double high = 0.0;
};

/// Nine in ten values lie between low and high, half of all below mid.
struct SkewedRange90 {
    double low = 0.0;
    double mid = 0.0;
    double high = 0.0;
};

/// The normal score of the upper end of a 90 % range, Phi^-1(0.95).
/// Source:  any table of the normal distribution
constexpr double kScoreOf95 = 1.644853626951472714864;

Distribution make_point(double value);
Distribution make_normal(double mean, double sd);
/// Two of three values (68.27 %) lie between median/spread and median x spread; spread
/// > 1.
Distribution make_lognormal_median_spread(double median, double spread);
/// A lognormal with this mean and coefficient of variation (sd / mean).
Distribution make_lognormal_mean_cv(double mean, double cv);
Distribution make_uniform(double low, double high);
/// A gamma distribution with this mean and coefficient of variation.
Distribution make_gamma(double mean, double cv);
Distribution make_beta(double alpha, double beta);
Distribution make_weibull(double shape, double scale);
Distribution make_weibull_mean(double shape, double mean);
Distribution make_triangular(double low, double mode, double high);
Distribution make_wrapped_normal(double mean_rad, double sd_rad);
/// A direction that nine times in ten lies within `within_rad` of `from_rad`.
Distribution make_direction_within(double from_rad, double within_rad);
Distribution make_von_mises(double mean_rad, double concentration);
Distribution make_bernoulli(double chance);
/// Quantiles at equally spaced shares from 0 to 1, joined by straight lines.
Distribution make_table(std::vector<double> quantiles);
/// Equally likely values, kept in their order: inputs that read one row of a file
/// together share the uniform number and so the row.
Distribution make_samples(std::vector<double> values);

Distribution make_normal_from_range(const Range90& range);
/// Range:   0 < low < high
Distribution make_lognormal_from_range(const Range90& range);
/// The beta distribution with these 5 % and 95 % points; nothing when they are so near 0
/// or 1 that no exponents between 1e-2 and 1e7 give them.
/// Range: 0 < low < high < 1
/// Accuracy: both points within 1e-9
std::optional<Distribution> make_beta_from_range(const Range90& range);
/// Two half-normals that meet at the median, exact at all three points.
Distribution make_split_normal(const SkewedRange90& range);
/// The same in the logarithm, for values that stay positive.
Distribution make_split_lognormal(const SkewedRange90& range);

/// The same distribution without what lies outside [lower, upper].
Distribution cut_distribution(Distribution distribution, double lower, double upper);

}  // namespace flattail::chance
