// A quantile function as cubics over equal cells of the normal score.
#pragma once

#include <vector>

#include "chance/distribution.h"
#include "chance/quantile_shares.h"

namespace flattail::sampling {

/// Coefficients for `cells` cells of the scores [-last_score, last_score], four to a
/// cell, bounds included. Value and slope are exact at the knots; a slope that would let
/// the cubic turn is cut back to three times the chord.
/// Source: Fritsch & Carlson 1980,
/// SIAM J. Numer. Anal. 17:238-246
std::vector<double> tabulate_quantiles(const Distribution& distribution,
                                       double last_score, int cells);

/// The exact value at a normal score; for directions the offset.
double find_value_at_score(const Distribution& distribution,
                           const chance::KeptShare& kept, double score);

}  // namespace flattail::sampling
