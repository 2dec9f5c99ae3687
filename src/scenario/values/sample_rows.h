// Values that stand in a file, row by row: the rows of a fit, of an ensemble forecast, of
// a log.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/problem_list.h"
#include "input/toml/document.h"
#include "scenario/values/spec.h"

namespace flattail::scenario {

struct SampleRows {
    std::vector<double> values;  // in SI, in the order of the rows
    std::string draw_name;       // the same for every column of one file
    std::string file;            // as the user wrote it
};

/// The column of a CSV file that holds a value: the one named by `column`, else the
/// value's full name or its key, with the unit in the header (`rider.power [W]`) or in
/// the cells. Whole rows are drawn: columns of one file (its name and its content) share
/// the row.
/// Errors:  nothing after adding problems: no such file or column, fewer than two rows,
///          an empty cell, a value outside the limits of the spec
/// Source:  METHOD 9.7
std::optional<SampleRows> read_sample_rows(const input::Node& file,
                                           const input::Node* column, const Spec& spec,
                                           base::ProblemList& problems);

}  // namespace flattail::scenario
