// Ctrl-C: the first ends the study with the days done, the second ends the program.
#pragma once

namespace flattail::app {

/// From now on the first SIGINT or SIGTERM is only remembered.
void catch_interrupts();

bool is_interrupted();

}  // namespace flattail::app
