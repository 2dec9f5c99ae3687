// Random-effects estimates as textbooks have them, to be shown beside the posterior.
#pragma once

#include <span>

#include "flattail/evidence.h"

namespace flattail::evidence {

/// What each laboratory found and the variance of its error.
struct Estimates {
    std::span<const double> value;
    std::span<const double> variance;
};

/// DerSimonian-Laird with Hartung-Knapp limits, a prediction interval, and REML.
/// Range:   at least two estimates, variances > 0; else only their number is filled
/// Accuracy: REML to 1e-10 of its variance
/// Source:  METHOD 4.13
ClassicalPool pool_classically(const Estimates& found);

}  // namespace flattail::evidence
