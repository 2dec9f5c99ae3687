// What the program tells the one who started it.
#pragma once

namespace flattail::app {

enum class ExitCode {
    kDone = 0,
    kInputWrong = 2,          // a file or an option; nothing was written
    kSurroundingsFailed = 3,  // disk, folder, or stopped early: tables say so
    kOurMistake = 4
};

}  // namespace flattail::app
