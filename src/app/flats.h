// The command `flats`: a log of rides in, rates and repairs out.
#pragma once

#include <string>

#include "app/exit_code.h"
#include "flattail/flat_log.h"

namespace CLI {
class App;
}

namespace flattail::app {

struct Request;

/// Options of `flats` as words of the command line.
struct FlatWords {
    std::string race, distance, clumping;
};
void add_flat_options(CLI::App& command, FlatWords& words);

/// Errors: InvalidInput naming the option
FlatLogOptions read_flat_options(const FlatWords& words);

/// Errors: InvalidInput, OutputFailed
ExitCode run_flats(const Request& request);

}  // namespace flattail::app
