// `flattail replay`: one ride of a study told along the course.
#pragma once

#include <string>

#include "app/exit_code.h"
#include "flattail/scenario.h"

namespace CLI {
class App;
}

namespace flattail::app {

struct Request;

/// Options of `replay` as words of the command line.
struct ReplayWords {
    std::string race, setup, seed, races;
    bool plain = false;
};
void add_replay_options(CLI::App& command, ReplayWords& words, std::string& directory);

/// Errors: InvalidInput naming the option
void read_replay_options(const ReplayWords& words, Request& request);

/// Errors: InvalidInput, OutputFailed
ExitCode run_replay(const Request& request, const Scenario& scenario);

}  // namespace flattail::app
