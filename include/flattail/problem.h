// Problems of a user's files as data, and the three errors that leave the library.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace flattail {

/// Where in a user's file something was written. Line and column count from 1; 0 means
/// unknown.
struct Place {
    std::string file;
    int line = 0;
    int column = 0;
};

enum class Severity { kError, kWarning };

/// One thing that is wrong (or doubtful) in a user's input.
/// `what` names the thing and says why it is wrong; `hint` says what to write instead.
struct Problem {
    Place place;
    std::string what;
    std::string hint;
    Severity severity = Severity::kError;
};

/// The problem as one line: "file:line:column: what -> hint".
/// Unknown lines and columns, an empty file name and an empty hint are left out.
std::string format_problem(const Problem& problem);

/// A user's input cannot be used. Holds every problem of the stage that failed, never
/// none.
class InvalidInput : public std::runtime_error {
  public:
    explicit InvalidInput(std::vector<Problem> problems);
    const std::vector<Problem>& problems() const { return problems_; }

  private:
    std::vector<Problem> problems_;
};

/// A result could not be written (disk full, folder read-only, missing program).
class OutputFailed : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// A rule that the library promised itself is broken. Never reachable from a file.
class OurMistake : public std::logic_error {
  public:
    using std::logic_error::logic_error;
};

}  // namespace flattail
