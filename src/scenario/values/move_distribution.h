// Distributions moved and stretched.
#pragma once

#include "flattail/uncertain.h"

namespace flattail::scenario {

/// The distribution of x + step.
/// Range:   a shape whose values are not confined to positive numbers or a chance, or
///          step 0
Distribution shift_distribution(Distribution distribution, double step);

/// The distribution of x * factor.
/// Range:   factor > 0; no chance (beta, Bernoulli) and no direction unless factor is 1
Distribution scale_distribution(Distribution distribution, double factor);

/// The input in another measure: SI values times a factor > 0.
Input scale_input(Input input, double factor);

}  // namespace flattail::scenario
