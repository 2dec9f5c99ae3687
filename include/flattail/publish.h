// Findings and scenarios as text for people and as tables for programs.
#pragma once

#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/scenario.h"
#include "flattail/study.h"

namespace flattail {

enum class Colour { kNone, kAnsi };

/// How a page is laid out.
struct PageOptions {
    /// Columns of the terminal; less than 80 counts as 80.
    int width = 80;
    /// ANSI colours (ECMA-48); the text is the same without them.
    Colour colour = Colour::kNone;
    /// Where the tables of this run lie; named in the last line unless empty.
    std::string tables_directory;
};

/// What was found, on one terminal page: typical and bad days, the setups against each
/// other, race days by finish time, the choice and how sure it is.
/// Errors: OurMistake when a figure is not a number
std::string write_page(const Findings& findings, const PageOptions& options = {});

/// The scenario as it was understood: setups, doubts, every default in use, cautions.
/// With `weights` the values that move the answer most come first and say by how much.
std::string write_check_page(const Scenario& scenario, const PageOptions& options = {},
                             const std::vector<ValueWeight>& weights = {});

/// The course as it was understood, with its profile.
std::string write_course_page(const Scenario& scenario, const PageOptions& options = {});

/// The whole of the findings as JSON (RFC 8259), schema "flattail findings 1".
/// Times and differences are seconds; null stands for what has no number and `null_means`
/// says which. Numbers read back to the same bits.
/// Errors: OurMistake when a figure is not a number
std::string write_findings_json(const Findings& findings);

/// Writes percentiles.csv, tail-risk.csv, paired.csv, histogram.csv, findings.json and
/// manifest.json. CSV by RFC 4180: units in header names, "no finish" where a time is
/// beyond every clock, an empty cell where a column says nothing about a row.
/// Errors: OutputFailed when a file cannot be written; the files that were there before
///         stay whole. OurMistake when a figure is not a number.
void write_tables(const Findings& findings, const std::string& directory);

/// Writes course.csv, kilometre by kilometre.
/// Errors: as write_tables.
void write_course_table(const Scenario& scenario, const std::string& directory);

/// Makes the folder when it is missing and tries it, so that a long study does not end
/// with nowhere to put its tables.
/// Errors: OutputFailed.
void prepare_tables_directory(const std::string& directory);

/// A folder name made from a race's name: "Three Herons, bike leg" -> "three-herons-bike-
/// leg". Never empty, never a path.
std::string name_directory(const std::string& race_name);

/// The entry of `known` that `word` most probably meant, or "" when none is near.
std::string suggest_name(const std::string& word, const std::vector<std::string>& known);

}  // namespace flattail
