#include "scenario/values/spec.h"

#include <fmt/format.h>

#include <cmath>

namespace flattail::scenario {

std::string write_number(double number) {
    const double size = std::abs(number);
    if (size >= 1e4 && size < 1e15) return fmt::format("{:.0f}", number);
    return fmt::format("{:.4g}", size < 1e-12 ? 0.0 : number);
}

std::string write_value(const Unit& unit, double value_si) {
    const std::string number = write_number(from_si(unit, value_si));
    return unit.name.empty() ? number : fmt::format("{} {}", number, unit.name);
}

}  // namespace flattail::scenario
