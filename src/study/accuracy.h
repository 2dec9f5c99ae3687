// The accuracy check: a sample of days ridden again with every root converged.
#pragma once

#include "flattail/findings.h"
#include "outcome/outcomes.h"
#include "study/prepared.h"

namespace flattail::study {

/// Largest deviation of the fast rides from converged ones over a sample of blocks,
/// evenly spread, about 1 in 500 and at least one: below 2 % of a study's time.
AccuracyCheck check_accuracy(const Prepared& prepared, const outcome::Outcomes& outcomes,
                             const ride::SettleCount& settled);

}  // namespace flattail::study
