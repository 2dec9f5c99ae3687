// What a study was: names, seed, days, fingerprints.
#pragma once

#include "flattail/findings.h"
#include "study/prepared.h"

namespace flattail::study {

StudyFacts state_facts(const Prepared& prepared, const StudyOptions& options,
                       std::size_t days, bool interrupted);

/// Goals, cutoff, what a day without a finish counts as.
void state_rules(const scenario::Model& model, Findings& findings);

}  // namespace flattail::study
