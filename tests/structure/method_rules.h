// METHOD.md and the code must point at each other, and at things that exist.
//
// A section of METHOD.md is a heading that begins with its number: "## 4. Rolling" or
// "### 4.2 Temperature"; an entry within it begins a line as "- (4.2)" or "**4.2
// Title.**".
// Code cites both as "METHOD 4.2". A section with text of its own,
// that is one without numbered sections below it, names at least one file below tests/.
#pragma once

#include <vector>

#include "structure/source_tree.h"

namespace flattail::structure {

/// Every "METHOD n.n" below src, include and tests that is no section of METHOD.md.
Complaints find_dangling_citations(const std::vector<SourceFile>& files);

/// Every section of METHOD.md that names no test, and every test it names that is
/// missing.
Complaints find_untested_sections(const std::vector<SourceFile>& files);

}  // namespace flattail::structure
