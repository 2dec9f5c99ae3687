// Words that must not stand in the tree, and what may stand at its top.
#pragma once

#include <vector>

#include "structure/source_tree.h"

namespace flattail::structure {

/// Notes to oneself, unfinished work and paths of one machine, in any text file but GPX.
Complaints find_forbidden_words(const std::vector<SourceFile>& files);

/// Entries at the top of the tree that are not on the list; dot-files are free.
Complaints find_strange_top_entries(const std::vector<SourceFile>& files);

/// Places outside src/app where the library would print, exit, or read a clock or the
/// environment; in tests, clocks outside tests/bench.
Complaints find_side_doors(const std::vector<SourceFile>& files);

}  // namespace flattail::structure
