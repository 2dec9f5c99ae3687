#include "input/units/unit_table.h"

#include <algorithm>
#include <array>
#include <numbers>
#include <vector>

#include "input/text/text_file.h"

namespace flattail::input {

namespace {

// Exact factors. Source: NIST SP 811 (2008) appendix B.8 and B.9; the knot from table 8
// of the SI Brochure (2006); the month is the mean one of the Gregorian calendar.
constexpr double kPound_kg = 0.45359237;
constexpr double kInch_m = 0.0254;
constexpr double kFoot_m = 0.3048;
constexpr double kMile_m = 1609.344;
constexpr double kHour_s = 3600;
constexpr double kDay_s = 86400;
constexpr double kMonth_s = 146097.0 / 4800.0 * kDay_s;  // 400 years have 146,097 days
constexpr double kStandardGravity_m_s2 = 9.80665;
constexpr double kPsi_Pa = kPound_kg * kStandardGravity_m_s2 / (kInch_m * kInch_m);
constexpr double kDegree_rad = std::numbers::pi / 180;
constexpr double kIcePoint_K = 273.15;
constexpr double kFahrenheitShift = 459.67;

// The first spelling of a dimension is the one that hints use.
constexpr auto kUnits = std::to_array<Unit>({
    {"kg", Dimension::kMass, 1},
    {"g", Dimension::kMass, 1e-3},
    {"lb", Dimension::kMass, kPound_kg},
    {"oz", Dimension::kMass, kPound_kg / 16},
    {"m", Dimension::kLength, 1},
    {"km", Dimension::kLength, 1e3},
    {"cm", Dimension::kLength, 1e-2},
    {"mm", Dimension::kLength, 1e-3},
    {"mi", Dimension::kLength, kMile_m},
    {"ft", Dimension::kLength, kFoot_m},
    {"inch", Dimension::kLength, kInch_m},
    {"min", Dimension::kTime, 60},
    {"s", Dimension::kTime, 1},
    {"h", Dimension::kTime, kHour_s},
    {"d", Dimension::kTime, kDay_s},
    {"week", Dimension::kTime, 7 * kDay_s},
    {"month", Dimension::kTime, kMonth_s},
    {"km/h", Dimension::kSpeed, 1e3 / kHour_s},
    {"m/s", Dimension::kSpeed, 1},
    {"mph", Dimension::kSpeed, kMile_m / kHour_s},
    {"kn", Dimension::kSpeed, 1852.0 / kHour_s},
    {"W", Dimension::kPower, 1},
    {"kW", Dimension::kPower, 1e3},
    {"psi", Dimension::kPressure, kPsi_Pa},
    {"bar", Dimension::kPressure, 1e5},
    {"mbar", Dimension::kPressure, 1e2},
    {"kPa", Dimension::kPressure, 1e3},
    {"hPa", Dimension::kPressure, 1e2},
    {"Pa", Dimension::kPressure, 1},
    {"C", Dimension::kTemperature, 1, kIcePoint_K},
    {"F", Dimension::kTemperature, 5.0 / 9.0, kFahrenheitShift},
    {"K", Dimension::kTemperature, 1},
    {"K", Dimension::kTemperatureDifference, 1},
    {"C", Dimension::kTemperatureDifference, 1},
    {"F", Dimension::kTemperatureDifference, 5.0 / 9.0},
    {"deg", Dimension::kDirection, kDegree_rad},
    {"deg", Dimension::kAngle, kDegree_rad},
    {"rad", Dimension::kAngle, 1},
    {"m2", Dimension::kArea, 1},
    {"cm2", Dimension::kArea, 1e-4},
    {"ml", Dimension::kVolume, 1e-6},
    {"L", Dimension::kVolume, 1e-3},
    {"m3", Dimension::kVolume, 1},
    {"m/s2", Dimension::kAcceleration, 1},
    {"kg m2", Dimension::kInertia, 1},
    {"%", Dimension::kRatio, 1e-2},
});

struct OtherSpelling {
    std::string_view word;
    std::string_view spelling;
};

// Understood as well, but never suggested.
constexpr auto kAliases = std::to_array<OtherSpelling>({
    {"in", "inch"},
    {"day", "d"},
    {"days", "d"},
    {"weeks", "week"},
    {"months", "month"},
    {"degC", "C"},
    {"\u00B0C", "C"},
    {"degF", "F"},
    {"\u00B0F", "F"},
    {"\u00B0", "deg"},
    {"m\u00B2", "m2"},
    {"l", "L"},
    {"m/s\u00B2", "m/s2"},
    {"kg m\u00B2", "kg m2"},
});

std::string_view resolve_alias(std::string_view word) {
    const auto it =
        std::find_if(kAliases.begin(), kAliases.end(),
                     [&](const OtherSpelling& alias) { return alias.word == word; });
    return it == kAliases.end() ? word : it->spelling;
}

// Refused, but with the right spelling in the hint (common practice).
constexpr auto kCorrections = std::to_array<OtherSpelling>({
    {"kgs", "kg"},        {"kilo", "kg"},       {"kilos", "kg"},    {"kilograms", "kg"},
    {"gram", "g"},        {"grams", "g"},       {"gr", "g"},        {"lbs", "lb"},
    {"pound", "lb"},      {"pounds", "lb"},     {"ounces", "oz"},   {"meter", "m"},
    {"metre", "m"},       {"meters", "m"},      {"metres", "m"},    {"kms", "km"},
    {"kilometers", "km"}, {"kilometres", "km"}, {"mile", "mi"},     {"miles", "mi"},
    {"feet", "ft"},       {"foot", "ft"},       {"inches", "inch"}, {"\"", "inch"},
    {"sec", "s"},         {"secs", "s"},        {"second", "s"},    {"seconds", "s"},
    {"mins", "min"},      {"minute", "min"},    {"minutes", "min"}, {"'", "min"},
    {"hr", "h"},          {"hrs", "h"},         {"hour", "h"},      {"hours", "h"},
    {"kph", "km/h"},      {"kmh", "km/h"},      {"kmph", "km/h"},   {"kmh-1", "km/h"},
    {"mps", "m/s"},       {"knot", "kn"},       {"knots", "kn"},    {"kt", "kn"},
    {"kts", "kn"},        {"watt", "W"},        {"watts", "W"},     {"bars", "bar"},
    {"celsius", "C"},     {"fahrenheit", "F"},  {"kelvin", "K"},    {"degree", "deg"},
    {"degrees", "deg"},   {"percent", "%"},     {"pct", "%"},       {"per cent", "%"},
    {"m^2", "m2"},        {"sqm", "m2"},        {"m/s^2", "m/s2"},  {"kg m^2", "kg m2"},
    {"kgm2", "kg m2"},    {"liter", "L"},       {"litre", "L"},     {"cc", "ml"},
    {"m", "min"},
});

bool shares_unit(const Unit& unit, Dimension dimension) {
    const bool ratio = dimension == Dimension::kProbability;
    return unit.dimension == (ratio ? Dimension::kRatio : dimension);
}

}  // namespace

std::span<const Unit> list_units() { return kUnits; }

const Unit* find_unit_of(std::string_view spelling, Dimension dimension) {
    spelling = resolve_alias(spelling);
    const auto it = std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& unit) {
        return unit.spelling == spelling && shares_unit(unit, dimension);
    });
    return it == kUnits.end() ? nullptr : &*it;
}

std::optional<Dimension> find_unit(std::string_view spelling) {
    spelling = resolve_alias(spelling);
    const auto it = std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& unit) {
        return unit.spelling == spelling;
    });
    return it == kUnits.end() ? std::nullopt : std::optional(it->dimension);
}

std::string_view suggest_unit(Dimension dimension) {
    const auto it = std::find_if(kUnits.begin(), kUnits.end(), [&](const Unit& unit) {
        return shares_unit(unit, dimension);
    });
    return it == kUnits.end() ? std::string_view() : it->spelling;
}

std::string_view correct_unit(std::string_view word, Dimension dimension) {
    const std::string lower = to_lower(word);
    std::string_view same_letters;
    for (const Unit& unit : kUnits) {
        if (!shares_unit(unit, dimension) || to_lower(unit.spelling) != lower) continue;
        if (same_letters.empty()) same_letters = unit.spelling;
    }
    if (!same_letters.empty()) return same_letters;
    for (const OtherSpelling& correction : kCorrections) {
        if (correction.word == lower && find_unit_of(correction.spelling, dimension)) {
            return correction.spelling;
        }
    }
    return {};
}

std::string list_spellings(Dimension dimension) {
    std::vector<std::string_view> spellings;
    for (const Unit& unit : kUnits) {
        if (shares_unit(unit, dimension)) spellings.push_back(unit.spelling);
    }
    std::string text;
    for (std::size_t i = 0; i < spellings.size(); ++i) {
        if (i > 0) text += i + 1 == spellings.size() ? " or " : ", ";
        text += spellings[i];
    }
    return text;
}

}  // namespace flattail::input
