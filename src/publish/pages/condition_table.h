// Dry and wet days side by side.
#pragma once

#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/publish.h"

namespace flattail::publish {

/// Typical day, difference and flats of every setup under each condition; nothing when
/// the study knows no two.
std::vector<std::string> lay_conditions(const Findings& findings,
                                        const PageOptions& options);

}  // namespace flattail::publish
