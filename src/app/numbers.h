// Numbers on the command line.
#pragma once

#include <fmt/format.h>

#include <charconv>
#include <string>

#include "flattail/problem.h"

namespace flattail::app {

/// A whole number, all of the text.
/// Errors: InvalidInput naming the option and an example
template <class Number>
Number read_number(const std::string& option, const std::string& text,
                   const char* example) {
    Number number{};
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, number);
    if (error == std::errc{} && stop == end) return number;
    throw InvalidInput(
        {{{"flattail race", 0, 0},
          fmt::format("{} is '{}', not a whole number{}", option, text,
                      error == std::errc::result_out_of_range ? " in range" : ""),
          fmt::format("write {} {}", option, example)}});
}

/// "1s", in seconds.
/// Errors: InvalidInput
double read_within(const std::string& text);

}  // namespace flattail::app
