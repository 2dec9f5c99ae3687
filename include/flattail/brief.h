// The race brief: what to ride, what to expect and what to do, for one rider on one page.
#pragma once

#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/pictures.h"
#include "flattail/scenario.h"

namespace flattail {

/// The brief as a message: at most 12 lines of at most 72 columns.
/// Errors: OurMistake when a figure is not a number
std::string write_brief_card(const Findings& findings, const Scenario& scenario);

/// What would turn the advice, in sentences; tell_turns gives them.
using AdviceTurns = std::vector<std::string>;

/// Writes brief.html (one page, light and dark, for screens, phones and paper; no
/// script, no other file, no network), brief.pdf (the same page on A4), brief.txt (the
/// card) and pump.csv, the table behind its pressures.
/// Pictures need gnuplot, the PDF weasyprint and rsvg-convert; what lacks one of them is
/// left out and told in `problems`.
/// Errors:   OutputFailed when a file cannot be written
/// Accuracy: the same bytes for the same findings, given the same versions of those
///           programs; every figure is one of the tables, rounded
Drawn write_brief(const Findings& findings, const Scenario& scenario,
                  const std::string& directory, const AdviceTurns& turns = {});

}  // namespace flattail
