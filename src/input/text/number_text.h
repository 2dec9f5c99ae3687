// The number at the front of a text, locale-free, and the mistakes people make in it.
#pragma once

#include <string>
#include <string_view>

#include "input/text/refusal.h"

namespace flattail::input {

struct LeadingNumber {
    double value = 0;
    std::string_view written;  ///< the number's own characters
    std::string_view rest;     ///< what follows, trimmed; often a unit
};

/// The finite number that `text` starts with. Refuses a comma or blank inside a number,
/// two decimal points, infinity and "not a number".
Parsed<LeadingNumber> split_number(std::string_view text);

/// The text when it is one finite number and nothing else.
Parsed<double> parse_number(std::string_view text);

/// True when a second value follows, as in "70-75 kg", "5 to 10 min" or "16 +- 2 C".
/// `rest` is what stands behind the first number.
bool looks_like_range(std::string_view rest);

/// The refusal for such a text; `example` is one value that would do.
Refusal refuse_range(std::string_view text, std::string_view example);

bool is_digit(char c);

}  // namespace flattail::input
