// `flattail start`: from no file to a scenario that runs.
#pragma once

#include <string>

#include "app/exit_code.h"

namespace flattail::app {

/// Asks on a terminal, each answer checked at once and "don't know" (an empty line)
/// always allowed; without a terminal writes the commented file. Never overwrites a file.
/// Errors: InvalidInput when the file exists; OutputFailed when it cannot be written
ExitCode run_start(const std::string& path);

}  // namespace flattail::app
