// Page and picture templates of reports/templates, compiled into the library: the program
// needs no file beside itself.
#pragma once

#include <string>
#include <string_view>

namespace flattail::publish {

/// The text of a template, by its file name.
/// Errors: OurMistake when there is none of that name
std::string_view find_template(std::string_view name);

}  // namespace flattail::publish
