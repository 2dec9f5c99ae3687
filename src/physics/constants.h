// Constants of nature and of the standard atmosphere that several formulas share.
#pragma once

namespace flattail::physics {

inline constexpr double kPi = 3.14159265358979323846;

// m/s2. Source: ISO 80000-3, standard acceleration of free fall. Local gravity differs by
// up to .3 %; all setups meet the same, so differences between them hardly move.
inline constexpr double kStandardGravity = 9.80665;

// J/(mol K). Source: SI brochure 2019 (exact).
inline constexpr double kGasConstant = 8.31446261815324;

// K. Source: SI brochure, definition of the degree Celsius.
inline constexpr double kZeroCelsius = 273.15;

// Pa. Source: ISO 2533, sea level.
inline constexpr double kStandardPressure = 101325.0;

// Pa. Source: SI brochure, accepted units.
inline constexpr double kPascalPerBar = 1e5;

// J/(kg K), specific gas constants. Source: ASHRAE Handbook of Fundamentals, chapter 1
// (rounded). A wrong digit here moves density by its own share, alike for all setups.
inline constexpr double kDryAirGasConstant = 287.05;
inline constexpr double kWaterVapourGasConstant = 461.5;

}  // namespace flattail::physics
