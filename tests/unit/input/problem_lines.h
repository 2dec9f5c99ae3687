// Problems as the lines that a user sees.
#pragma once

#include <string>
#include <vector>

#include "base/problem_list.h"

inline std::vector<std::string> format_lines(
    const flattail::base::ProblemList& problems) {
    std::vector<std::string> lines;
    for (const flattail::Problem& problem : problems.all()) {
        lines.push_back(flattail::format_problem(problem));
    }
    return lines;
}
