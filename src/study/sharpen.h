// Means and chances with what is known to be zero taken out of their sampling error.
#pragma once

#include <vector>

#include "findings/summary/study_sample.h"
#include "flattail/findings.h"
#include "study/blocks.h"
#include "study/prepared.h"

namespace flattail::study {

/// Corrects every mean and chance of setups and pairs that is linear in the days, and
/// states the smaller errors. Percentiles stay as they are.
/// Shapes:   pair_facts[setup]: facts that move its difference to the one compared with
/// Accuracy: same bits for any number of threads
/// Source:   METHOD 10.32
void sharpen_figures(const findings::StudySample& sample, const Prepared& prepared,
                     const std::vector<std::vector<InputId>>& pair_facts,
                     const BlockExecutor& run, Findings& findings);

/// Largest standard error of the setups' mean differences to the one compared with, by
/// the controls that need no facts.
double find_largest_mean_error_s(const findings::StudySample& sample,
                                 const Prepared& prepared, const BlockExecutor& run);

}  // namespace flattail::study
