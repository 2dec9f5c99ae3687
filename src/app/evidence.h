// `flattail evidence`: from a file of rolling tests to a page, tables and a library.
#pragma once

#include "app/command_line.h"
#include "app/exit_code.h"

namespace CLI {
class App;
}

namespace flattail::app {

void add_evidence_options(CLI::App& command, EvidenceWords& words);

/// Errors: InvalidInput for the file or an option; OutputFailed
ExitCode run_evidence(const Request& request);

}  // namespace flattail::app
