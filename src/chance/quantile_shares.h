// The inner form of quantiles: both shares given, so that neither tail loses digits.
#pragma once

#include "chance/distribution.h"

namespace flattail::chance {

/// What lies below and above a value; they add up to 1.
struct Shares {
    double below = 0.5;
    double above = 0.5;
};

/// What the bounds leave of a distribution: the shares cut off at both ends, and what
/// stays.
struct KeptShare {
    double cut_below = 0.0;
    double cut_above = 0.0;
    double kept = 1.0;
};

KeptShare find_kept_share(const Distribution& distribution);

/// Shares of the whole distribution that belong to shares of the part within bounds.
Shares widen_shares(const Shares& within, const KeptShare& kept);

/// The value at these shares of the whole distribution, bounds ignored. Directions give
/// the offset from the mean direction, samples the row at that share of all rows.
double find_quantile(const Distribution& distribution, const Shares& shares);

/// The chance of a value at or below x, bounds ignored.
double find_share_below(const Distribution& distribution, double x);

}  // namespace flattail::chance
