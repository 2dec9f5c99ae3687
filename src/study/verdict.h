// Which setup to ride by the scenario's rule, and how sure that is.
#pragma once

#include <vector>

#include "study/knowledge.h"

namespace flattail::study {

/// Choice and certainty among the setups that may be chosen, by the scenario's rule.
/// Where a chance is the rule and it does not tell the setups apart, the average time
/// decides.
struct Judging {
    const findings::StudySample& sample;
    const sampling::DayPlan& plan;
    const scenario::Model& model;
    std::vector<int> allowed;  // setups that may be chosen
};
Verdict reach_verdict(const Learnt& learnt, const Judging& judging);

}  // namespace flattail::study
