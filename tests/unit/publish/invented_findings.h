// Findings of a race that never was, for pages and tables to print.
#pragma once

#include <string>
#include <vector>

#include "flattail/findings.h"

namespace flattail::test {

/// Two setups, butyl and latex, one goal, no cutoff; all figures differ from each other,
/// so that a mixed-up one shows. Invented: not the result of any study.
Findings invent_findings();

/// The same with as many setups as names.
Findings invent_findings(const std::vector<std::string>& names);

std::vector<std::string> split_lines(const std::string& text);

}  // namespace flattail::test
