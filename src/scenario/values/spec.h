// What one value of a scenario is: its name, unit, limits, and what is used when nobody
// states it.
#pragma once

#include <string>
#include <string_view>

#include "flattail/uncertain.h"
#include "input/units/quantity.h"

namespace flattail::scenario {

/// The unit people read: SI value = number * si + zero.
struct Unit {
    std::string_view name;
    double si = 1.0;
    double zero = 0.0;
};

inline constexpr Unit kNoUnit{""};
inline constexpr Unit kPercent{"%", 0.01};
inline constexpr Unit kKilogram{"kg"};
inline constexpr Unit kGram{"g", 1e-3};
inline constexpr Unit kWatt{"W"};
inline constexpr Unit kSquareMetre{"m2"};
inline constexpr Unit kMetre{"m"};
inline constexpr Unit kMillimetre{"mm", 1e-3};
inline constexpr Unit kKilometre{"km", 1e3};
inline constexpr Unit kSecond{"s"};
inline constexpr Unit kMinute{"min", 60.0};
inline constexpr Unit kHour{"h", 3600.0};
inline constexpr Unit kKilometrePerHour{"km/h", 1.0 / 3.6};
inline constexpr Unit kMetrePerSecondSquared{"m/s2"};
inline constexpr Unit kCelsius{"C", 1.0, 273.15};
inline constexpr Unit kKelvinStep{"C", 1.0};
inline constexpr Unit kDegree{"deg", 3.14159265358979323846 / 180.0};
inline constexpr Unit kBar{"bar", 1e5};
/// Source: NIST SP 811 (2008), appendix B.8.
inline constexpr Unit kPsi{"psi", 6894.757293168};
inline constexpr Unit kHectopascal{"hPa", 100.0};
inline constexpr Unit kPerThousandKilometres{"per 1000 km", 1e-6};
inline constexpr Unit kPercentPerHour{"% per h", 0.01 / 3600.0};

inline double to_si(const Unit& unit, double number) {
    return number * unit.si + unit.zero;
}
inline double from_si(const Unit& unit, double value) {
    return (value - unit.zero) / unit.si;
}

/// Which numbers make sense at all; decides how a range is filled with values.
/// Signed: any sign, symmetric about its middle. Positive: ratios matter. Chance: between
/// 0 and 1.
enum class Scale { kSigned, kPositive, kChance };

/// How a default is spread. Range forms hold the 5 %, 50 % and 95 % points.
enum class Form { kRequired, kCertain, kNormalRange, kLognormalRange };

/// What is used when nobody states a value; numbers in the printed unit.
struct Usual {
    Form form = Form::kRequired;
    double low = 0.0;
    double mid = 0.0;
    double high = 0.0;
    Origin origin = Origin::kAssumption;
    std::string source = {};
};

struct Spec {
    std::string name;  // "rider.mass"; the last part is the key that users write
    std::string label;
    input::Dimension dimension = input::Dimension::kNumber;
    Unit unit;
    Scale scale = Scale::kPositive;
    Layer layer = Layer::kKnowledge;  // where a spread belongs unless its `kind` says so
    double least = 0.0;               // in the printed unit, as is `most`
    double most = 0.0;
    std::string advice;  // the hint beside a value out of range
    Usual usual = {};    // without one the value must be stated
};

/// The key of a spec: what follows the last dot of its name.
inline std::string key_of(const Spec& spec) {
    return spec.name.substr(spec.name.rfind('.') + 1);
}

/// A number as people read it, four significant digits: "0.0045", "88.4", "12000".
std::string write_number(double number);

/// A value in its unit: "70 kg", "5 %".
std::string write_value(const Unit& unit, double value_si);

}  // namespace flattail::scenario
