// Means with their errors, and higher moments that can be merged.
#pragma once

#include <span>

#include "findings/sample/estimate.h"

namespace flattail::findings {

/// Self-normalised weighted mean with its stratified standard error.
/// Range:   finite values
/// Source:  METHOD 10.1, 10.3
Estimate estimate_mean(std::span<const double> values, const Design& design);

/// Weighted standard deviation with its stratified standard error, from the influence
/// value ((x - mean)^2 - variance) / (2 sd).
/// Range:   finite values; an error of 0 where all are equal
/// Source:  METHOD 10.3
Estimate estimate_sd(std::span<const double> values, const Design& design);

/// Sums of powers about the mean: m2 = sum w (x - mean)^2, and so on.
struct Moments {
    double weight = 0;
    double mean = 0;
    double m2 = 0;
    double m3 = 0;
    double m4 = 0;
};

/// Two passes, the second removing what rounding left in the first.
/// Source: Chan, Golub & LeVeque 1983
Moments measure_moments(std::span<const double> values, std::span<const double> weight);

/// Moments of two samples put together.
/// Source: METHOD 10.7 (Pebay 2008, with weights for counts)
Moments merge(const Moments& first, const Moments& second);

double population_variance(const Moments& moments);
/// With n - 1, for unit weights.
double sample_variance(const Moments& moments);
double skewness(const Moments& moments);
double excess_kurtosis(const Moments& moments);

}  // namespace flattail::findings
