// Bad days: how often, how bad on average, and what an event costs.
#pragma once

#include <cstdint>
#include <span>

#include "findings/sample/estimate.h"
#include "findings/sample/weighted_sample.h"

namespace flattail::findings {

/// Average of the worst 1 - level of the days (expected shortfall), right with atoms.
/// Range:   level in [0, 1); +infinity if a day without a finish is among them
/// Source:  METHOD 10.8, 10.9 (Rockafellar & Uryasev 2002)
Estimate estimate_worst_average(const WeightedSample& sample, double level);

/// Chance of a value strictly beyond x.
Estimate estimate_chance_beyond(const WeightedSample& sample, double x);

/// Chance of an event; happened[day] is 0 or 1.
Estimate estimate_chance(std::span<const std::uint8_t> happened, const Design& design);

/// Mean of the values over the days on which the event happened; NaN if it never did.
/// Source: METHOD 10.10 (ratio estimator; Cochran 1977, chapter 6)
Estimate estimate_conditional_mean(std::span<const double> values,
                                   std::span<const std::uint8_t> happened,
                                   const Design& design);

/// Limits for a chance that stay inside [0, 1] and are never empty at 0 or 1.
/// effective_days is used where the standard error is 0.
/// Source: METHOD 10.11 (Korn & Graubard 1998; Clopper & Pearson 1934)
Interval chance_interval(const Estimate& chance, double effective_days,
                         double confidence = kConfidence);

}  // namespace flattail::findings
