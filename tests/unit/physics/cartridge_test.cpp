#include "physics/cartridge.h"

#include <utility>

#include "properties.h"
#include "support/catch.h"

using namespace flattail::physics;
using physics_test::kPsi;

namespace {

double compute_16_g_pa(double litres, GasLaw law) {
    return compute_carbon_dioxide_pressure_pa(.016, {litres * 1e-3, 293.15}, law);
}

}  // namespace

TEST_CASE("a torus of tyre width has the volume of the formula") {
    // 2 pi^2 R r^2 on a 622 rim, computed apart, litres.
    for (const auto& [width_mm, litres] : {std::pair{23.0, .842},
                                           {25.0, .998},
                                           {28.0, 1.257},
                                           {30.0, 1.448},
                                           {32.0, 1.652}}) {
        const Torus torus = compute_torus(width_mm * 1e-3);
        CHECK(torus.volume_m3 * 1e3 == Approx(litres).margin(6e-4));
        // Pappus: area over volume is 2/r, as in the permeation rates.
        CHECK(torus.area_m2 / torus.volume_m3 ==
              Approx(2.0 / torus.section_radius_m).epsilon(1e-12));
    }
}

TEST_CASE("16 g of carbon dioxide fill an empty tube as computed apart") {
    // 44.0095 g/mol, 20 C; ideal absolute and van der Waals gauge, kPa. Litres are given
    // to three decimals, which is good for .04 %.
    for (const auto& [litres, kpa] :
         {std::pair{1.0, 886.1}, {1.257, 705.2}, {1.3, 681.6}}) {
        CHECK(compute_16_g_pa(litres, GasLaw::kIdeal) == Approx(kpa * 1e3).epsilon(4e-4));
    }
    for (const auto& [litres, kpa] :
         {std::pair{1.0, 750.7}, {1.257, 582.2}, {1.3, 560.1}}) {
        CHECK(compute_16_g_pa(litres, GasLaw::kVanDerWaals) - 101325.0 ==
              Approx(kpa * 1e3).epsilon(4e-4));
    }
}

TEST_CASE("over a tyre that holds an atmosphere the gauge shows nRT/V") {
    const Vessel vessel{1.257e-3, 293.15};
    const GasMix filled = fill_from_cartridge(make_air(kStandardPressure), {.016, 0.0},
                                              vessel, GasLaw::kIdeal);
    CHECK(compute_gauge_pressure_pa(filled, kStandardPressure) ==
          Approx(compute_16_g_pa(1.257, GasLaw::kIdeal)).epsilon(1e-12));
}

TEST_CASE("a spilt share is missing from the tube") {
    const Vessel vessel{1e-3, 293.15};
    const GasMix whole = fill_from_cartridge({}, {.016, 0.0}, vessel, GasLaw::kIdeal);
    const GasMix spilt = fill_from_cartridge({}, {.016, .08}, vessel, GasLaw::kIdeal);
    CHECK(sum_pressure_pa(spilt) == Approx(.92 * sum_pressure_pa(whole)).epsilon(1e-12));
    CHECK(spilt[Gas::kNitrogen] == 0.0);
}

TEST_CASE("a 16 g cartridge gives the pressures riders see") {
    // Common practice, 8 % lost, tube rolled flat: 99, 77, 55 psi in 25, 28, 32 mm.
    for (const auto& [width_mm, psi] :
         {std::pair{25.0, 99.0}, {28.0, 77.0}, {32.0, 55.0}}) {
        const Vessel vessel{compute_torus(width_mm * 1e-3).volume_m3, 293.15};
        const GasMix filled = fill_from_cartridge({}, {}, vessel);
        const double gauge_psi =
            compute_gauge_pressure_pa(filled, kStandardPressure) / kPsi;
        CHECK(gauge_psi == Approx(psi).epsilon(.05));
    }
}
