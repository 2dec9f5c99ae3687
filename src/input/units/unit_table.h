// The closed table of unit spellings. Nothing outside it is understood.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "input/units/quantity.h"

namespace flattail::input {

/// SI value = (written number + offset) * factor.
struct Unit {
    std::string_view spelling;
    Dimension dimension;
    double factor;
    double offset = 0;
};

std::span<const Unit> list_units();

/// The unit of this dimension with exactly this spelling, or nullptr.
const Unit* find_unit_of(std::string_view spelling, Dimension dimension);

/// The spelling that someone who wrote `word` most probably meant: "kph" -> "km/h", "KG"
/// -> "kg". Empty when none is plain; never a guess between two real units.
std::string_view correct_unit(std::string_view word, Dimension dimension);

/// The dimension's spellings for a hint, the usual one first: "kg, g, lb or oz".
std::string list_spellings(Dimension dimension);

}  // namespace flattail::input
