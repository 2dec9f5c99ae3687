// One TOML text as our own tree. The only door to the TOML library.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/problem_list.h"
#include "input/text/text_file.h"
#include "input/toml/document.h"

namespace flattail::input {

/// The table at the top, entries in the order in which they were written; nothing after
/// one problem when the text is malformed. Includes are not resolved here.
std::optional<Node> parse_toml(const TextFile& file, base::ProblemList& problems);

/// One value such as `5`, `"70 kg"`, `["tube"]`, `{ low = 1, high = 2 }`, or nothing when
/// the text is none. `place` stands in the whole tree.
std::optional<Node> parse_toml_value(std::string_view text, const Place& place);

}  // namespace flattail::input
