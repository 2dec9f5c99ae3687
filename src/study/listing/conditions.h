// The study's days told apart by what a rider sees on the morning: a dry or a wet road.
#pragma once

#include <vector>

#include "findings/summary/study_sample.h"
#include "flattail/findings.h"
#include "sampling/day_plan.h"

namespace flattail::study {

/// Dry days and wet days; nothing when only one can be. A day is wet when it rains
/// at any time from the start to the typical finish of the setup compared against.
std::vector<ConditionFindings> split_by_rain(const findings::StudySample& sample,
                                             const sampling::DayPlan& plan,
                                             const scenario::Model& model,
                                             const findings::Runner& run);

}  // namespace flattail::study
