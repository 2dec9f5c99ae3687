// What moves the result: the part of each unknown fact, or of a group of them.
#pragma once

#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "findings/knowledge/model.h"

namespace flattail::findings {

/// Expected difference with one fact at its 10th and 90th percentile, the others
/// averaged.
struct InputEffect {
    std::size_t input = 0;
    Estimate at_low;
    Estimate at_high;
    Estimate swing;  ///< at_high minus at_low
};

/// One entry per fact, in their order.
/// Source: METHOD 10.19
std::vector<InputEffect> input_effects(const KnowledgeModel& model,
                                       const Contrast& contrast);

/// Shares of the variance of E[difference | facts] that go with a group of facts.
/// The three errors are the jackknife's; shares are freed of estimation noise, floor 0.
struct VarianceShare {
    Estimate first;  ///< the group alone
    Estimate total;  ///< every term the group is part of
};

/// Source: METHOD 10.19 (Sudret 2008)
VarianceShare variance_share(const KnowledgeModel& model, const Contrast& contrast,
                             std::span<const std::size_t> group);

/// Facts that move the differences to setup `against` most, at most `count`, and all
/// pairs of them: the products worth adding to a second fit.
std::vector<std::pair<std::size_t, std::size_t>> choose_products(
    const KnowledgeModel& model, std::size_t against, std::size_t count);

}  // namespace flattail::findings
