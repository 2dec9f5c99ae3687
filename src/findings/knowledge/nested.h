// What knowing is worth by brute force: every state of knowledge ridden many times.
#pragma once

#include <cstddef>
#include <functional>
#include <span>

#include "findings/knowledge/model.h"
#include "findings/sample/estimate.h"

namespace flattail::findings {

/// How many states of what is to be learnt are drawn, and on how many days each.
struct NestedPlan {
    std::size_t states = 0;
    std::size_t days = 0;  // even
};

/// Fills figure[setup][day] with days of one state, a pure function of the state's
/// number.
using NestedDays =
    std::function<void(std::size_t state, std::span<const std::span<double>> figure)>;

/// E max - max E over the states' averages. The maximum of averages over n days is too
/// large by a term in 1 / n; twice the whole less the mean of both halves is free of it.
/// A check on the regression, far too slow for a study.
/// Range:  at least two states and two days
/// Source: METHOD 10.44 (Ades, Lu & Claxton 2004 for the nested run; halves as in Giles
/// &
///         Goda 2019)
Estimate value_by_nested_run(const NestedPlan& plan, std::size_t setups,
                             const NestedDays& days, Better better);

/// The same without the correction, to see how large it is.
Estimate value_by_raw_nested_run(const NestedPlan& plan, std::size_t setups,
                                 const NestedDays& days, Better better);

}  // namespace flattail::findings
