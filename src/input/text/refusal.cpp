#include "input/text/refusal.h"

#include <fmt/format.h>

namespace flattail::input {

std::string format_hint(const Refusal& refusal, std::string_view key) {
    if (refusal.example.empty()) return refusal.hint;
    std::string hint = key.empty()
                           ? fmt::format("write \"{}\"", refusal.example)
                           : fmt::format("write {} = \"{}\"", key, refusal.example);
    if (!refusal.hint.empty()) hint += ", " + refusal.hint;
    return hint;
}

}  // namespace flattail::input
