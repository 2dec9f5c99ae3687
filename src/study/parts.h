// Where the gain comes from: rolling, air lost, weight, flats.
#pragma once

#include "findings/summary/study_sample.h"
#include "flattail/findings.h"
#include "study/blocks.h"
#include "study/prepared.h"

namespace flattail::study {

/// Splits the mean difference of a pair into what each trait brings, averaged over the
/// orders in which traits can be exchanged (Shapley 1953), so that the parts sum to the
/// mean.
/// Rides every mixture of the two setups over the first days of the study; what those
/// days leave unexplained of the full mean is sampling error, nearly all of it from
/// flats, and goes there.
/// Source: METHOD 10.28
void add_parts(const Prepared& prepared, const findings::StudySample& sample,
               const BlockExecutor& run, PairFindings& pair);

}  // namespace flattail::study
