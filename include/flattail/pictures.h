// Pictures of what was found: gnuplot scripts over tables, and what they draw.
#pragma once

#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/preparation.h"
#include "flattail/scenario.h"
#include "flattail/why.h"

namespace flattail {

/// What came of a wish for files that other programs must help with.
struct Drawn {
    std::vector<std::string> files;  // written, by name
    /// One line for each program that was missing or failed, with what to install. What
    /// needs no such program is written all the same.
    std::vector<std::string> problems;
};

/// Writes the pictures of a study, each for a wide page (NAME.svg) and a phone
/// (NAME-phone.svg), with the script NAME.gp and the tables it reads: finish-times
/// (curves with the typical day), dots (50 race days per setup), slower-than (the chance
/// of being slower), intervals (each setup against the one compared with) and course
/// (height, wind along the road, flat risk).
/// Errors:   OutputFailed when a file cannot be written
/// Accuracy: the same bytes for the same findings
Drawn write_pictures(const Findings& findings, const Scenario& scenario,
                     const std::string& directory);

/// The same for what `explain` found: moves (what moves the result), break-even (what
/// would turn it, the flat rate first) and trade-off (typical days against bad ones).
/// Errors:   OutputFailed when a file cannot be written
/// Accuracy: the same bytes for the same findings
Drawn write_why_pictures(const WhyFindings& why, const std::string& directory);

/// The same for a plan of pumping: pressure (both wheels from the pump to the finish).
/// Errors:   OutputFailed when a file cannot be written
/// Accuracy: the same bytes for the same plan
Drawn write_pump_pictures(const PumpPlan& plan, const std::string& directory);

}  // namespace flattail
