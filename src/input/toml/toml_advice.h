// What a person most probably meant by a malformed TOML line.
#pragma once

#include <string>
#include <string_view>

namespace flattail::input {

/// The parser's complaint in plainer words.
std::string explain_toml_complaint(std::string_view complaint);

/// What to write instead. `line` is the line that failed, `complaint` the parser's own
/// words.
std::string suggest_toml_fix(std::string_view line, std::string_view complaint);

}  // namespace flattail::input
