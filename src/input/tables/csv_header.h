// The header line of a CSV file: names, and the units that stand in them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problem_list.h"
#include "input/tables/csv.h"

namespace flattail::input {

/// Columns with name and unit apart. Problems for a column without a name and for two
/// with the same name.
std::vector<CsvColumn> read_header(const std::vector<CsvCell>& cells,
                                   const std::string& file, base::ProblemList& problems);

}  // namespace flattail::input
