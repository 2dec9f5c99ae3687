// The terminal: where text goes, whether it may be coloured, how far a study is.
#pragma once

#include <chrono>
#include <string>

#include "flattail/publish.h"

namespace flattail::app {

/// Writes all of it to standard output.
/// Errors: OutputFailed (a full disk behind a redirection)
void write_output(const std::string& text);

/// One line on standard error, where nothing can be done about a failure.
void write_notice(const std::string& line);

/// Colours on a terminal that shows them, unless NO_COLOR is set (convention of
/// no-color.org).
Colour choose_colour();

/// "42 %, about 12 s left" on standard error, rewritten in place; nothing when standard
/// error is no terminal.
class ProgressLine {
  public:
    enum class Wanted { kNo, kYes };
    explicit ProgressLine(Wanted wanted);
    ~ProgressLine();
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;

    void show(double share);

  private:
    using Clock = std::chrono::steady_clock;
    bool is_shown_;
    bool has_text_ = false;
    Clock::time_point start_;
    Clock::time_point last_;
};

}  // namespace flattail::app
