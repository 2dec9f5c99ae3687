// Rides of every setup on the first days of a plan, for questions beside the main study.
#pragma once

#include "outcome/outcomes.h"
#include "study/blocks.h"
#include "study/prepared.h"

namespace flattail::study {

/// Every setup on days 0 to `days` - 1, whole blocks.
/// Errors:  OurMistake when a ride was not solved
outcome::Outcomes ride_days(const Prepared& prepared, std::size_t days,
                            const BlockExecutor& run);

}  // namespace flattail::study
