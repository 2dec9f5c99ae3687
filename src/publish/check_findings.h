// The door through which findings enter every page and table.
#pragma once

#include "flattail/findings.h"

namespace flattail::publish {

/// Makes sure that tables and pages can print the findings: every list as long as its
/// neighbours, no figure NaN, none infinite unless it is a time that can be no finish.
/// Errors: OurMistake naming the figure
void check_findings(const Findings& findings);

}  // namespace flattail::publish
