// How exactly the figures of a study are computed, in one line.
#pragma once

#include <string>

#include "flattail/findings.h"

namespace flattail::publish {

/// "Computing error, 19 in 20 below: typical day 3 s, NET under 1 s, counts 0.4."
std::string describe_error(const Findings& findings);

}  // namespace flattail::publish
