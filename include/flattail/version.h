// Which flattail this is.
#pragma once

#include <string>

namespace flattail {

/// "0.1.0": major.minor.patch. The same version, scenario and seed give the same numbers.
std::string version();

}  // namespace flattail
