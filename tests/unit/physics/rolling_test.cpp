#include "physics/rolling.h"

#include <utility>

#include "properties.h"
#include "support/catch.h"

using namespace flattail::physics;
using physics_test::Cases;
using physics_test::kCaseCount;
using physics_test::kPsi;

namespace {

RollingLaw draw_law(Cases& cases) {
    return {cases.between(.002, .006), cases.between(3.5e5, 8e5), cases.between(.2, .8),
            cases.between(1, 3), .008};
}

RollingState on_surface(Surface surface) {
    return {find_default_roughness_crr(surface), kDefaultReferencePressure,
            kRollingReferenceTemperature};
}

}  // namespace

TEST_CASE("12 W a pair at 45 km/h and 85 kg are a rolling coefficient of .00115") {
    // Crr = P / (load x speed), common practice of drum tests.
    CHECK(convert_power_to_crr(12.0, {12.5, 85.0, 9.81}) == Approx(.00115).margin(5e-6));
    // One tyre of the pair under its half of the load: half the watts, the same
    // coefficient.
    CHECK(convert_power_to_crr(6.0, {12.5, 42.5, 9.81}) ==
          convert_power_to_crr(12.0, {12.5, 85.0, 9.81}));
}

TEST_CASE("watts to coefficient and back are the same watts") {
    Cases cases(61);
    for (int i = 0; i < kCaseCount; ++i) {
        const RollingPoint point{cases.between(3, 20), cases.between(20, 120), 9.80665};
        const double power_w = cases.between(-20, 60);
        CHECK(convert_crr_to_power_w(convert_power_to_crr(power_w, point), point) ==
              Approx(power_w).epsilon(1e-12));
    }
}

TEST_CASE("drum to flat meets the alignment formula") {
    // sqrt(R/(R + r)), r .334 m (form from memory, values computed apart). The limits are
    // laws: a drum is always worse, and a drum without curvature is a flat road.
    for (const auto& [drum_m, factor] :
         {std::pair{.385, .732}, {.6, .801}, {.8535, .848}, {1.0, .866}}) {
        CHECK(compute_drum_to_flat_factor(drum_m, .334) == Approx(factor).margin(5e-4));
    }
    CHECK(compute_drum_to_flat_factor(1e9, .334) == Approx(1.0).epsilon(1e-9));
}

TEST_CASE("the temperature factor undoes the correction of ISO 28580") {
    // F25 = F [1 + K (t - 25)], K .008 per K, 20 to 30 C.
    for (const double celsius : {20.0, 23.0, 25.0, 30.0}) {
        const double factor = compute_temperature_factor(273.15 + celsius);
        CHECK(factor * (1.0 + .008 * (celsius - 25.0)) == Approx(1.0).epsilon(1e-12));
    }
    CHECK(compute_temperature_factor(298.15) == 1.0);
}

TEST_CASE("the temperature factor is held outside -5 to 50 C") {
    CHECK(compute_temperature_factor(250.0) == compute_temperature_factor(268.15));
    CHECK(compute_temperature_factor(360.0) == compute_temperature_factor(323.15));
    CHECK(compute_temperature_factor(270.0) < compute_temperature_factor(268.15));
}

TEST_CASE("the law gives the default coefficients at its reference") {
    for (const Surface surface :
         {Surface::kSmooth, Surface::kOrdinary, Surface::kCoarse, Surface::kCobbles}) {
        CHECK(compute_crr({}, on_surface(surface)) ==
              Approx(find_default_crr(surface)).epsilon(1e-12));
    }
}

TEST_CASE("cobbles cost at least twice a smooth road") {
    // Hoelzel et al. 2012, Procedia Eng 34:479: coasting 22.1 m on slabs, 10.2 m on
    // cobbles, a ratio of 2.17; cobbles differ widely (.008 to .018).
    const double ratio =
        find_default_crr(Surface::kCobbles) / find_default_crr(Surface::kSmooth);
    CHECK(ratio > 2.17 * .8);
    CHECK(ratio < 2.17 * 2.0);
}

TEST_CASE("hysteresis alone falls with pressure as the power law says") {
    // Grappe et al. 1999: Cr = .1071 p^-.477, p in kPa (from memory): from 4 to 8 bar by
    // 2^-.477. Henchoz et al. 2010: 23 and 28 mm tyres fall with pressure when smooth.
    const RollingLaw law;
    RollingState state{0.0, 4e5, kRollingReferenceTemperature};
    const double soft = compute_crr(law, state);
    state.pressure_pa = 8e5;
    CHECK(compute_crr(law, state) / soft == Approx(.7184).margin(1e-4));
    // Crr = a + b/p (Tire Sci Technol 6(3):163) falls too, and more slowly than 1/p.
    CHECK(compute_crr(law, state) > .5 * soft);
}

TEST_CASE("a pressure or a temperature moves the coefficient by no more than published") {
    // Rothhaemel 2023, IJVSMT 17:67: each by a factor of 2 to 3 over its range at most.
    const RollingLaw law;
    RollingState state = on_surface(Surface::kSmooth);
    state.pressure_pa = 2e5;
    const double soft = compute_crr(law, state);
    state.pressure_pa = 9e5;
    CHECK(soft / compute_crr(law, state) > 1.5);
    CHECK(soft / compute_crr(law, state) < 3.0);
    const double range =
        compute_temperature_factor(273.15) / compute_temperature_factor(313.15);
    CHECK(range > 1.2);
    CHECK(range < 3.0);
}

TEST_CASE("roughness loss rises with pressure and with roughness") {
    // Turner 2024, doi 10.1080/00423114.2024.2304031: rises with both.
    Cases cases(62);
    for (int i = 0; i < kCaseCount; ++i) {
        RollingLaw law = draw_law(cases);
        law.hysteresis_crr = 0.0;
        const RollingState state{cases.between(1e-4, .01), cases.between(1.6e5, 9e5),
                                 293.0};
        RollingState harder = state;
        harder.pressure_pa *= 1.05;
        RollingState rougher = state;
        rougher.roughness_crr *= 1.05;
        CHECK(compute_crr(law, harder) > compute_crr(law, state));
        CHECK(compute_crr(law, rougher) > compute_crr(law, state));
    }
}

TEST_CASE("nothing beats the best pressure within its range") {
    Cases cases(63);
    for (int i = 0; i < kCaseCount; ++i) {
        const RollingLaw law = draw_law(cases);
        RollingState state{cases.between(0, .01), 0.0, cases.between(273, 313)};
        const PressureRange range{2e5, cases.between(3e5, 9e5)};
        const double best_pa = find_best_pressure_pa(law, state, range);
        CHECK(best_pa >= range.lowest_pa);
        CHECK(best_pa <= range.highest_pa);
        state.pressure_pa = best_pa;
        const double best = compute_crr(law, state);
        for (int k = 0; k < 20; ++k) {
            state.pressure_pa = cases.between(range.lowest_pa, range.highest_pa);
            CHECK(compute_crr(law, state) >= best * (1 - 1e-12));
        }
    }
}

TEST_CASE("the rougher the road, the lower the best pressure") {
    const RollingLaw race_tyre;
    const auto best_psi = [&](Surface surface) {
        return find_best_pressure_pa(race_tyre, on_surface(surface)) / kPsi;
    };
    CHECK(best_psi(Surface::kSmooth) > best_psi(Surface::kOrdinary));
    CHECK(best_psi(Surface::kOrdinary) > best_psi(Surface::kCoarse));
    CHECK(best_psi(Surface::kCoarse) > best_psi(Surface::kCobbles));
    // Common practice for 28 mm and about 80 kg: some 70 psi on ordinary roads.
    CHECK(best_psi(Surface::kSmooth) > 100.0);
    CHECK(best_psi(Surface::kOrdinary) == Approx(70.0).margin(7.0));
    CHECK(best_psi(Surface::kCoarse) > 40.0);
    CHECK(best_psi(Surface::kCobbles) > 22.0);
    Cases cases(64);
    for (int i = 0; i < kCaseCount; ++i) {
        const RollingLaw law = draw_law(cases);
        const RollingState state{cases.between(1e-4, .01), 0.0, 293.0};
        RollingState rougher = state;
        rougher.roughness_crr *= 1.1;
        CHECK(find_best_pressure_pa(law, rougher) <= find_best_pressure_pa(law, state));
    }
    CHECK(find_best_pressure_pa(race_tyre, {0.0, 0.0, 293.0}, {2e5, 7e5}) == 7e5);
}

TEST_CASE("a cold tyre rolls worse and wants more pressure") {
    const RollingLaw law;
    RollingState cold = on_surface(Surface::kOrdinary);
    cold.temperature_k = 278.15;
    const RollingState warm = on_surface(Surface::kOrdinary);
    CHECK(compute_crr(law, cold) > compute_crr(law, warm));
    CHECK(find_best_pressure_pa(law, cold) > find_best_pressure_pa(law, warm));
}

TEST_CASE("the hysteresis found from a test gives that test back") {
    Cases cases(65);
    for (int i = 0; i < kCaseCount; ++i) {
        const RollingLaw law = draw_law(cases);
        const RollingState state{cases.between(0, .004), cases.between(2e5, 9e5),
                                 cases.between(273, 313)};
        CHECK(solve_hysteresis_crr(compute_crr(law, state), law, state) ==
              Approx(law.hysteresis_crr).epsilon(1e-10));
    }
}

TEST_CASE("below the pressure of a flat wheel the law is not followed") {
    RollingState state = on_surface(Surface::kOrdinary);
    state.pressure_pa = kFlatWheelPressure;
    const double at_limit = compute_crr({}, state);
    state.pressure_pa = 1e4;
    CHECK(compute_crr({}, state) == at_limit);
    CHECK(kFlatWheelPressure == 1.5e5);
}

TEST_CASE("two equal wheels roll like each of them") {
    CHECK(combine_crr(.004, .004) == Approx(.004));
    CHECK(combine_crr(.004, .006) == Approx(.45 * .004 + .55 * .006));
}
