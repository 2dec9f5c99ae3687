// What knowing a fact before choosing is worth.
#pragma once

#include <cstdint>
#include <span>

#include "findings/knowledge/model.h"
#include "findings/sample/estimate.h"

namespace flattail::findings {

/// Expected figures of every setup in every state of knowledge: expected[state][setup],
/// row by row, with the states' probabilities (any scale).
struct StatesOfKnowledge {
    std::span<const double> expected;
    std::span<const double> probability;
    std::size_t setups = 0;
};

/// Gain of choosing after the state is seen over choosing once, never negative.
/// Source: METHOD 10.20 (Raiffa & Schlaifer 1961, expected value of perfect information)
double value_of_knowing(const StatesOfKnowledge& states, Better better);

/// The same when one learns only in which group of states one is: group[state].
double value_of_knowing_group(const StatesOfKnowledge& states,
                              std::span<const std::uint8_t> group, Better better);

/// Closed form for two setups whose difference is normal.
/// Source: METHOD 10.20 (unit normal loss integral; Raiffa & Schlaifer 1961)
double value_of_knowing_normal(double mean_difference, double sd);

/// Value of learning share known[i] of the variance of every fact i: all ones for
/// everything, a single 1 for one fact, a share for a test that leaves doubt.
/// Source: METHOD 10.20 (Strong, Oakley & Brennan 2014)
Estimate value_of_learning(const KnowledgeModel& model, const KnowledgeDraws& draws,
                           std::span<const double> known, Better better);

/// Share of a normal fact's variance that a measurement with its own error removes.
/// Source: Raiffa & Schlaifer 1961, preposterior analysis of the normal mean
double share_learnt_by_measuring(double prior_sd, double error_sd);

/// Share of a flat rate's variance that riding removes, for a gamma prior worth
/// prior_distance_m of riding.
/// Source: Raiffa & Schlaifer 1961, gamma prior and Poisson counts
double share_learnt_by_riding(double prior_distance_m, double ridden_distance_m);

}  // namespace flattail::findings
