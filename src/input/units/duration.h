// Lengths of time: "2:35:00", "8 min 30 s", "1 h".
#pragma once

#include <string_view>

#include "input/text/refusal.h"

namespace flattail::input {

/// Seconds. "2:35" is refused, since it may mean hours and minutes or minutes and
/// seconds.
Parsed<double> parse_duration(std::string_view text);

}  // namespace flattail::input
