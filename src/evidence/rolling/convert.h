// One test brought to the condition at which all are compared.
#pragma once

#include <optional>
#include <string>

#include "evidence/rolling/read_tests.h"

namespace flattail::evidence {

// Sd of one run over its value where a row states none. Assumption; a laboratory that
// states its own is weighed by that.
inline constexpr double kUnstatedSpread = 0.03;
// No test is more exact than this share of its value, however small its stated spread
// (assumption: load, pressure and temperature are never held better).
inline constexpr double kLeastStandardError = 0.005;
// K, where a row states no temperature: an unheated room (assumption).
inline constexpr double kUnstatedTemperature = 293.15;
// m, the tyre for which the reference pressure of 5 bar holds; used where a row states no
// width.
inline constexpr double kUnstatedWidth = 0.028;

/// A test at the common condition, or the reason why it cannot be brought there.
struct ConvertedTest {
    double crr = 0.0;  // smooth flat road, reference pressure, 25 C
    double standard_error = 0.0;
    std::string refusal;  // empty when it could be converted
};

/// Watts become a coefficient, a drum a flat road, and pressure, temperature and surface
/// those of the common condition, by the functions that rides use.
/// Source:  METHOD 4.8
ConvertedTest convert_test(const TestRow& row);

}  // namespace flattail::evidence
