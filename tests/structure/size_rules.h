// How much fits into a file, a folder, a function and a line.
#pragma once

#include <vector>

#include "structure/source_tree.h"

namespace flattail::structure {

/// Code files of more than 400 lines.
Complaints find_long_files(const std::vector<SourceFile>& files);

/// Folders below src and include with more than 14 units (a header and its source are
/// one).
Complaints find_crowded_folders(const std::vector<SourceFile>& files);

/// Functions below src and include of more than 60 lines, first line to closing brace.
/// Counts what is defined at the left margin, which is where the format puts every
/// function outside a class; clang-tidy measures the rest (target `tidy`).
Complaints find_long_functions(const std::vector<SourceFile>& files);

/// Lines of code files wider than 90 columns; the formatter leaves comments alone.
Complaints find_wide_lines(const std::vector<SourceFile>& files);

/// Docstrings in which a key (Units, Range, ...) does not begin its line.
Complaints find_run_on_docstrings(const std::vector<SourceFile>& files);

}  // namespace flattail::structure
