#include "physics/cartridge.h"

#include "base/expects.h"

namespace flattail::physics {
namespace {

// Van der Waals constants of carbon dioxide, Pa m6/mol2 and m3/mol. Source: CRC Handbook
// of Chemistry and Physics (from memory; other editions differ by .5 %, a fill by .03 %).
constexpr double kAttraction = 0.3640;
constexpr double kExcludedVolume = 4.267e-5;

}  // namespace

Torus compute_torus(double width_m, double rim_diameter_m) {
    FLATTAIL_EXPECTS(width_m > 0.0 && rim_diameter_m > 0.0);
    const double section_m = 0.5 * width_m;
    const double ring_m = 0.5 * (rim_diameter_m + width_m);
    const double ring_length_m = 2.0 * kPi * ring_m;
    return {section_m, ring_length_m * kPi * section_m * section_m,
            ring_length_m * 2.0 * kPi * section_m};
}

double compute_carbon_dioxide_pressure_pa(double mass_kg, const Vessel& vessel,
                                          GasLaw law) {
    FLATTAIL_EXPECTS(vessel.volume_m3 > 0.0 && mass_kg >= 0.0);
    const double density_mol_m3 = mass_kg / kCarbonDioxideMolarMass / vessel.volume_m3;
    const double ideal_pa = density_mol_m3 * kGasConstant * vessel.temperature_k;
    if (law == GasLaw::kIdeal) return ideal_pa;
    FLATTAIL_EXPECTS(density_mol_m3 * kExcludedVolume < 1.0);
    return ideal_pa / (1.0 - density_mol_m3 * kExcludedVolume) -
           kAttraction * density_mol_m3 * density_mol_m3;
}

GasMix fill_from_cartridge(const GasMix& before, const Cartridge& cartridge,
                           const Vessel& vessel, GasLaw law) {
    const double kept_kg = cartridge.mass_kg * (1.0 - cartridge.lost_share);
    const double added_pa = compute_carbon_dioxide_pressure_pa(kept_kg, vessel, law);
    return add_gas(before, make_pure(Gas::kCarbonDioxide, added_pa));
}

}  // namespace flattail::physics
