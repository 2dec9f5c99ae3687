// A log-spaced grid of positive values with weights: a distribution to work with.
#pragma once

#include <vector>

#include "flattail/flat_log.h"

namespace flattail::evidence {

/// Values first * exp(step * k), k = 0 .. size - 1.
struct LogGrid {
    double first = 1.0;
    double step = 0.1;
    int size = 0;
    double at(int k) const;
    std::vector<double> values() const;
};

/// Mean, sd and percentiles of weights (sum 1) on a grid; each weight is spread evenly,
/// in the logarithm, over its cell.
/// Accuracy: of a value whose sd of the logarithm is above the step: 1e-3 of the sd
Belief summarise_weights(const LogGrid& grid, const std::vector<double>& weights);

double find_quantile(const LogGrid& grid, const std::vector<double>& weights,
                     double share);
/// The share at or below a value.
double find_share(const LogGrid& grid, const std::vector<double>& weights, double value);

/// Scales weights to sum 1.
void normalise(std::vector<double>& weights);

}  // namespace flattail::evidence
