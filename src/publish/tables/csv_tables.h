// The findings as four CSV tables.
#pragma once

#include <string>

#include "flattail/findings.h"

namespace flattail::publish {

/// Finish time by percent, with its 95 % interval.
std::string write_percentiles_csv(const Findings& findings);

/// Chances and averages of bad days: a row for each setup and figure.
std::string write_tail_risk_csv(const Findings& findings);

/// Every setup minus the one it is compared against, on the same days.
std::string write_paired_csv(const Findings& findings);

/// Race days by finish time.
std::string write_histogram_csv(const Findings& findings);

/// Dry and wet days apart: a row for each condition and setup; only the header when the
/// study knows no two.
std::string write_conditions_csv(const Findings& findings);

/// What each thing in a kit buys and weighs.
std::string write_kit_csv(const Findings& findings);

/// Every ride: a row for each day and setup. Empty text when no days were kept.
std::string write_days_csv(const Findings& findings);

}  // namespace flattail::publish
