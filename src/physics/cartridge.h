// How much a tube holds, and what a gas cartridge makes of it.
#pragma once

#include "physics/constants.h"
#include "physics/gas_mix.h"

namespace flattail::physics {

// m, bead seat of a 28 inch road rim. Source: ISO 5775 (622).
inline constexpr double kRoadRimDiameter = 0.622;

struct Torus {
    double section_radius_m = 0.0;
    double volume_m3 = 0.0;
    double area_m2 = 0.0;
};

/// Size of the ring that a tube of a width fills on a rim.
/// Accuracy: real tubes differ by 10 %
/// Source:  METHOD 5.9 (torus; Pappus)
Torus compute_torus(double width_m, double rim_diameter_m = kRoadRimDiameter);

// kg/mol. Source: IUPAC standard atomic weights.
inline constexpr double kCarbonDioxideMolarMass = 0.0440095;

enum class GasLaw { kIdeal, kVanDerWaals };

/// A volume at a temperature.
struct Vessel {
    double volume_m3 = 0.0;
    double temperature_k = kZeroCelsius + 20.0;
};

/// Pressure of an amount of carbon dioxide alone in a vessel.
/// Accuracy: at 9 bar and 20 C the ideal gas is 4 % high
/// Source:  METHOD 5.10 (van der Waals; constants CRC Handbook)
double compute_carbon_dioxide_pressure_pa(double mass_kg, const Vessel& vessel,
                                          GasLaw law);

struct Cartridge {
    double mass_kg = 0.016;
    double lost_share =
        0.08;  // spilt at the valve; common practice, a clumsy fill loses more
};

/// What is in a tube after a cartridge is emptied into it and has warmed up again.
/// Range:   `before` is zero for a tube rolled flat, outside air for a tyre that kept
/// shape
/// Source: METHOD 5.10
GasMix fill_from_cartridge(const GasMix& before, const Cartridge& cartridge,
                           const Vessel& vessel, GasLaw law = GasLaw::kVanDerWaals);

}  // namespace flattail::physics
