// One quantity per another: "1 per 3000 km", "2 % per h", "5 psi in 10 h".
#pragma once

#include <optional>
#include <string_view>

#include "input/units/quantity.h"

namespace flattail::input {

/// The two sides of "per", "in", "every" or "/", trimmed.
struct SplitRate {
    std::string_view amount;
    std::string_view base;
};

std::optional<SplitRate> split_rate(std::string_view text);

/// For the dimensions that end in PerDistance or PerTime.
Parsed<double> parse_rate(std::string_view text, Dimension dimension);

}  // namespace flattail::input
