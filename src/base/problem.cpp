#include "flattail/problem.h"

namespace flattail {

namespace {

std::string join_lines(const std::vector<Problem>& problems) {
    std::string text;
    for (const Problem& problem : problems) {
        if (!text.empty()) text += '\n';
        text += format_problem(problem);
    }
    return text;
}

}  // namespace

std::string format_problem(const Problem& problem) {
    std::string text = problem.place.file;
    if (problem.place.line > 0) text += ':' + std::to_string(problem.place.line);
    if (problem.place.line > 0 && problem.place.column > 0) {
        text += ':' + std::to_string(problem.place.column);
    }
    if (!text.empty()) text += ": ";
    if (problem.severity == Severity::kWarning) text += "warning: ";
    text += problem.what;
    if (!problem.hint.empty()) text += " -> " + problem.hint;
    return text;
}

InvalidInput::InvalidInput(std::vector<Problem> problems)
    : std::runtime_error(join_lines(problems)), problems_(std::move(problems)) {}

}  // namespace flattail
