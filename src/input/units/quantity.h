// Quantities with units as text: "70 kg", "8 min 30 s", "1 in 20", "1 per 3000 km",
// "WSW".
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "input/text/refusal.h"

namespace flattail::input {

/// What a quantity measures. Values come back in the SI unit beside each.
enum class Dimension {
    kMass,                   // kg
    kLength,                 // m
    kTime,                   // s, durations only; see clock.h for times of day
    kSpeed,                  // m/s
    kPower,                  // W
    kPressure,               // Pa, as written (gauge or absolute is the reader's affair)
    kTemperature,            // K, absolute
    kTemperatureDifference,  // K
    kDirection,              // rad clockwise from north, [0, 2 pi)
    kAngle,                  // rad, a difference or a width
    kArea,                   // m2
    kVolume,                 // m3
    kAcceleration,           // m/s2
    kInertia,                // kg m2
    kNumber,                 // plain number, no unit allowed
    kRatio,                  // plain number, "5 %" or "1 in 20"
    kProbability,            // like kRatio, and between 0 and 1
    kRatePerDistance,        // 1/m: "1 per 3000 km", "0.4 / 1000 km"
    kRatioPerTime,           // 1/s: "2 % per h"
    kPressurePerTime,        // Pa/s: "5 psi per 10 h"
};

/// The dimension in a reader's words with its article: "a mass", "a length", "a
/// pressure".
std::string_view describe_dimension(Dimension dimension);

/// A text that would be understood for this dimension: "70 kg".
std::string_view show_example(Dimension dimension);

/// The unit that hints use for this dimension: "kg". Empty for plain numbers and rates.
std::string_view suggest_unit(Dimension dimension);

/// The quantity in SI, or why not. Decimal point only; a unit is required unless the
/// dimension is a number, ratio or probability. Infinity, ranges and lists are refused.
/// Source: factors are exact, NIST SP 811 (2008) appendix B.
Parsed<double> parse_quantity(std::string_view text, Dimension dimension);

/// The same for a bare number in a unit named apart, as in the header `distance_km`.
Parsed<double> parse_quantity_in(std::string_view text, std::string_view unit,
                                 Dimension dimension);

/// Refuses a number without a unit, or takes it when the dimension needs none.
/// `written` is the number as the user wrote it.
Parsed<double> accept_bare_number(double number, std::string_view written,
                                  Dimension dimension);

/// The unit's dimension when the closed table knows this spelling (exact case).
std::optional<Dimension> find_unit(std::string_view spelling);

}  // namespace flattail::input
