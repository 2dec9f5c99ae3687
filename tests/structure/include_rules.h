// Who may include what: the one table of allowed edges, and the rules that read it.
#pragma once

#include <string>
#include <vector>

#include "structure/source_tree.h"

namespace flattail::structure {

/// Every #include in src and include that the table does not allow.
Complaints find_forbidden_includes(const std::vector<SourceFile>& files);

/// Every pair of folders that include each other.
Complaints find_two_way_folders(const std::vector<SourceFile>& files);

}  // namespace flattail::structure
