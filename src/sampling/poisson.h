// Counts of rare events.
#pragma once

namespace flattail::sampling {

/// The largest mean the functions below accept; e^-700 is still a normal number.
constexpr double kLargestPoissonMean = 700.0;

/// P(N = count).
/// Range:   0 <= mean <= kLargestPoissonMean
/// Accuracy: 1e-13 relative
double poisson_probability(int count, double mean);

/// P(N >= count), summed from the small end so that rare counts keep their digits.
/// Accuracy: 1e-13 relative
double poisson_tail(int count, double mean);

/// The count at share u: the smallest n with P(N <= n) >= u. Never falls when u or the
/// mean rises, so a setup with the higher rate has at least as many on the same number.
/// Range:   0 < u < 1
/// Source:  inversion by sequential search (Devroye 1986, section X.3.3)
int poisson_quantile(double u, double mean);

}  // namespace flattail::sampling
