#include "app/terminal.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>

#include "flattail/problem.h"

namespace flattail::app {

namespace {

// Often enough to look alive, rarely enough to cost nothing.
constexpr std::chrono::milliseconds kBetweenLines{200};
// Before this share the time left is a guess not worth showing.
constexpr double kEnoughToJudge = 0.02;
constexpr const char* kClearLine = "\r\x1b[K";

std::string describe_left(double left_s) {
    if (left_s < 90.0) return fmt::format("about {:.0f} s left", std::ceil(left_s));
    return fmt::format("about {:.0f} min left", std::ceil(left_s / 60.0));
}

}  // namespace

void write_output(const std::string& text) {
    const bool is_written =
        std::fwrite(text.data(), 1, text.size(), stdout) == text.size() &&
        std::fflush(stdout) == 0;
    if (is_written) return;
    throw OutputFailed(
        fmt::format("standard output: cannot be written ({}) -> check where the output "
                    "is sent",
                    std::strerror(errno)));
}

void write_notice(const std::string& line) { fmt::print(stderr, "{}\n", line); }

Colour choose_colour() {
    const char* no_colour = std::getenv("NO_COLOR");
    const char* terminal = std::getenv("TERM");
    const bool is_refused = no_colour != nullptr && *no_colour != '\0';
    const bool is_dumb = terminal == nullptr || std::strcmp(terminal, "dumb") == 0;
    return ::isatty(STDOUT_FILENO) == 1 && !is_refused && !is_dumb ? Colour::kAnsi
                                                                   : Colour::kNone;
}

ProgressLine::ProgressLine(Wanted wanted)
    : is_shown_(wanted == Wanted::kYes && ::isatty(STDERR_FILENO) == 1),
      start_(Clock::now()),
      last_(start_) {}

ProgressLine::~ProgressLine() {
    if (has_text_) std::fputs(kClearLine, stderr);
}

void ProgressLine::show(double share) {
    const Clock::time_point now = Clock::now();
    if (!is_shown_ || now - last_ < kBetweenLines) return;
    last_ = now;
    has_text_ = true;
    std::string line = fmt::format("{}{:3.0f} %", kClearLine, 100.0 * share);
    if (share >= kEnoughToJudge) {
        const double spent_s = std::chrono::duration<double>(now - start_).count();
        line += ", " + describe_left(spent_s * (1.0 - share) / share);
    }
    std::fputs(line.c_str(), stderr);
    std::fflush(stderr);
}

}  // namespace flattail::app
