// The sentence about what to put into a pocket before the race.
#pragma once

#include <string>

#include "flattail/findings.h"

namespace flattail::publish {

/// What the advised setup should carry besides what it does, or nothing to say. Said only
/// when one more thing saves the race often enough, pays for its weight on average, and
/// both are beyond computing error.
std::string describe_kit(const Findings& findings, int advised);

}  // namespace flattail::publish
