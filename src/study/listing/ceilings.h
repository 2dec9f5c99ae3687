// Setups that the study itself rules out: more flats at speed than the scenario allows.
#pragma once

#include <vector>

#include "flattail/findings.h"
#include "scenario/model.h"

namespace flattail::study {

/// Vetoes every setup whose chance of a flat at speed, of either wheel or of the front
/// one, is above the scenario's ceiling. The chances must be final.
void apply_ceilings(const scenario::Decision& decision, Findings& found);

/// The setups that may be chosen.
std::vector<int> list_allowed(const Findings& found);

}  // namespace flattail::study
