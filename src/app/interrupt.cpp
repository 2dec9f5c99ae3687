#include "app/interrupt.h"

#include <atomic>
#include <csignal>

namespace flattail::app {

namespace {

std::atomic<bool> interrupted{false};
static_assert(std::atomic<bool>::is_always_lock_free, "set inside a signal handler");

// The next signal finds the system's own handler again and ends the program. Tables are
// renamed into place, so it cannot leave half a file.
void remember(int signal) {
    interrupted = true;
    std::signal(signal, SIG_DFL);
}

}  // namespace

void catch_interrupts() {
    std::signal(SIGINT, remember);
    std::signal(SIGTERM, remember);
}

bool is_interrupted() { return interrupted; }

}  // namespace flattail::app
