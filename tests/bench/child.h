// Programs that the benchmark starts and listens to.
#pragma once

#include <string>

namespace flattail::bench {

/// What the command writes to its output; empty when it fails.
std::string read_output(const std::string& command);

}  // namespace flattail::bench
