// The commands, each from a request to its output.
#pragma once

#include "app/command_line.h"
#include "app/exit_code.h"

namespace flattail::app {

/// Errors: InvalidInput, OutputFailed, OurMistake as the library throws them
ExitCode run_command(const Request& request);

}  // namespace flattail::app
