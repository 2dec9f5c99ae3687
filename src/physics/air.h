// Density of the air a rider pushes through.
#pragma once

namespace flattail::physics {

struct AirState {
    double temperature_k = 288.15;
    double pressure_pa = 101325.0;   // at the place itself, not reduced to sea level
    double relative_humidity = 0.0;  // 0 dry to 1 saturated
};

/// Geopotential height of a geometric height above sea level.
/// Source:  METHOD 1.1 (ISO 2533, eq. 8)
double compute_geopotential_height_m(double height_m);

/// Temperature of the standard atmosphere at a geometric height.
/// Range:   height_m in [-1000, 11000]
/// Source:  METHOD 1.2 (ISO 2533)
double compute_standard_temperature_k(double height_m);

/// Pressure of the standard atmosphere at a geometric height.
/// Range:   height_m in [-1000, 11000]
/// Source:  METHOD 1.3 (ISO 2533)
double compute_standard_pressure_pa(double height_m);

/// Density of the standard atmosphere (dry) at a geometric height.
/// Range:   height_m in [-1000, 11000]
/// Source:  METHOD 1.4 (ISO 2533)
double compute_standard_density_kg_m3(double height_m);

/// Vapour pressure over water in saturated air.
/// Range:   temperature_k in [263, 323]
/// Accuracy: .1 % of the CRC Handbook table from 0 to 35 C
/// Source:  METHOD 1.5 (Picard et al. 2008, CIPM-2007, eq. A1.1)
double compute_saturation_pressure_pa(double temperature_k);

/// Density of moist air as a mixture of two ideal gases.
/// Accuracy: 1e-3 of CIPM-2007 between 5 and 30 C (no enhancement or compressibility)
/// Source:  METHOD 1.6 (ideal gas mixture, ASHRAE Handbook of Fundamentals, chapter 1)
double compute_air_density_kg_m3(const AirState& air);

/// Factor on the density measured at one height that gives the density at another.
/// Range:   heights in [-1000, 11000]; follows the standard lapse, whatever the day's
///          temperature: 10 K off standard puts it wrong by .03 % per 100 m of climb
/// Source:  METHOD 1.7 (ISO 2533)
double compute_density_ratio(double height_m, double reference_height_m);

}  // namespace flattail::physics
