// Whether the days ridden so far answer the question precisely enough.
#pragma once

#include "outcome/outcomes.h"
#include "study/blocks.h"
#include "study/prepared.h"

namespace flattail::study {

/// True when the 95 % half-width of every setup's mean difference to the one compared
/// with is at most `within_s`. METHOD 10.24
bool is_precise_enough(const Prepared& prepared, const outcome::Outcomes& outcomes,
                       const BlockExecutor& run, std::size_t days, double within_s);

}  // namespace flattail::study
