// What a setup is judged by, as a figure per day whose expectation is the rule's.
#pragma once

#include <string>
#include <vector>

#include "findings/knowledge/model.h"
#include "findings/summary/study_sample.h"

namespace flattail::study {

/// Verdict::rule when setups are compared by their chance to finish.
inline constexpr const char* kFinishRule = "chance to finish";

/// Shapes:  response[setup][day]; its weighted mean is what the rule compares.
struct RuleResponse {
    std::vector<std::vector<double>> response;
    findings::Better better = findings::Better::kSmaller;
    double matters = 0.0;  // in the response's unit
    std::string words;     // "average time", "chance of the goal 2:35:00"
};

/// Average time: the judged time itself. Goal and finish: 0 or 1. A percentile or the
/// average of the worst days: its influence value, which has the right mean and, given
/// what is not known, the right slope.
/// Source: METHOD 10.29 (Hampel 1974; Rockafellar &
/// Uryasev 2002)
RuleResponse make_response(const findings::StudySample& sample,
                           const scenario::Model& model, scenario::RuleKind rule);

}  // namespace flattail::study
