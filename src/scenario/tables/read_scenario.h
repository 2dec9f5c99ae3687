// A scenario from a text in memory, for tests and tools that have no file.
#pragma once

#include <string>
#include <vector>

#include "flattail/scenario.h"

namespace flattail::scenario {

/// The scenario of a TOML text; `name` stands in places, and files it points at are
/// looked for beside it.
/// Errors: InvalidInput with every problem of the stage that failed
Scenario read_scenario_text(std::string text, const std::string& name,
                            const std::vector<std::string>& settings = {});

}  // namespace flattail::scenario
