#include "physics/air.h"

#include <utility>

#include "properties.h"
#include "support/catch.h"

using namespace flattail::physics;
using physics_test::Cases;
using physics_test::kCaseCount;

TEST_CASE("the standard atmosphere meets the ISO 2533 table") {
    struct Row {
        double height_m, pressure_pa, density_kg_m3;
    };
    for (const Row& row : {Row{0, 101325.0, 1.225}, Row{1000, 89876.3, 1.11166},
                           Row{2000, 79501.4, 1.00655}}) {
        CHECK(compute_standard_pressure_pa(row.height_m) ==
              Approx(row.pressure_pa).epsilon(1e-4));
        CHECK(compute_standard_density_kg_m3(row.height_m) ==
              Approx(row.density_kg_m3).epsilon(1e-4));
    }
    CHECK(compute_standard_temperature_k(0.0) == Approx(288.15).epsilon(1e-12));
    // ISO 2533, table at h = 2000 m: H 1999 m, T 275.154 K (from memory).
    CHECK(compute_geopotential_height_m(2000.0) == Approx(1999.37).epsilon(1e-5));
    CHECK(compute_standard_temperature_k(2000.0) == Approx(275.154).epsilon(1e-5));
}

TEST_CASE("saturation pressure meets the CRC Handbook within .1 percent") {
    // CRC Handbook of Chemistry and Physics (Lide), vapour pressure of water, kPa.
    for (const auto& [celsius, kpa] : {std::pair{0.0, .6113},
                                       {5.0, .8726},
                                       {10.0, 1.2281},
                                       {15.0, 1.7056},
                                       {20.0, 2.3388},
                                       {25.0, 3.1690},
                                       {30.0, 4.2455},
                                       {35.0, 5.6267}}) {
        CHECK(compute_saturation_pressure_pa(273.15 + celsius) ==
              Approx(1000.0 * kpa).epsilon(1e-3));
    }
}

TEST_CASE("moist air meets CIPM-2007 within a thousandth") {
    // Picard et al. 2008, Metrologia 45:149.
    CHECK(compute_air_density_kg_m3({293.15, 101325.0, .5}) ==
          Approx(1.1993).epsilon(1e-3));
    CHECK(compute_air_density_kg_m3({303.15, 101325.0, .9}) ==
          Approx(1.1482).epsilon(1e-3));
    CHECK(compute_air_density_kg_m3({278.15, 101325.0, .5}) ==
          Approx(1.2677).epsilon(1e-3));
}

TEST_CASE("moist air meets the worked example of the psychrometrics tests") {
    // 30 C, humidity ratio .02, 95461 Pa: 1.08412 kg/m3 (psychrolib test suite, after the
    // ASHRAE Handbook). The humidity ratio w stands for e = w p/(.621945 + w).
    constexpr double kPressure = 95461.0;
    const double vapour_pa = .02 * kPressure / (.621945 + .02);
    const double humidity = vapour_pa / compute_saturation_pressure_pa(303.15);
    CHECK(compute_air_density_kg_m3({303.15, kPressure, humidity}) ==
          Approx(1.08412).epsilon(3e-4));
}

TEST_CASE("air is lighter when warmer, wetter, higher or at lower pressure") {
    Cases cases(21);
    for (int i = 0; i < kCaseCount; ++i) {
        const AirState air{cases.between(268, 313), cases.between(8e4, 1.04e5),
                           cases.between(0, .95)};
        AirState other = air;
        const double density = compute_air_density_kg_m3(air);
        other.temperature_k += 1.0;
        CHECK(compute_air_density_kg_m3(other) < density);
        other = air;
        other.relative_humidity += .05;
        CHECK(compute_air_density_kg_m3(other) < density);
        other = air;
        other.pressure_pa -= 500.0;
        CHECK(compute_air_density_kg_m3(other) < density);
        const double height_m = cases.between(-100, 3000);
        CHECK(compute_standard_density_kg_m3(height_m + 10.0) <
              compute_standard_density_kg_m3(height_m));
    }
}

TEST_CASE("density ratios between heights chain and invert") {
    CHECK(compute_density_ratio(1000.0, 0.0) == Approx(1.11166 / 1.225).epsilon(1e-4));
    Cases cases(22);
    for (int i = 0; i < kCaseCount; ++i) {
        const double a = cases.between(-100, 3000);
        const double b = cases.between(-100, 3000);
        const double c = cases.between(-100, 3000);
        CHECK(compute_density_ratio(a, a) == 1.0);
        CHECK(compute_density_ratio(a, b) * compute_density_ratio(b, c) ==
              Approx(compute_density_ratio(a, c)).epsilon(1e-12));
    }
}
