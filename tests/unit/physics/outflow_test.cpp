#include "physics/outflow.h"

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <cmath>
#include <utility>

#include "properties.h"
#include "support/catch.h"

using namespace flattail::physics;
using physics_test::Cases;

namespace {

LeakingTube make_tube(double hole_mm) {
    return {{hole_mm * 1e-3, .6}, 1e-3, 293.15, 101325.0};
}

/// The time as an integral over the mass flow, by quadrature.
double integrate_fall_s(const LeakingTube& tube, double from_pa, double to_pa) {
    const auto slowness = [&](double pressure_pa) {
        return tube.volume_m3 / (kDryAirGasConstant * tube.temperature_k *
                                 compute_mass_flow_kg_s(tube, pressure_pa));
    };
    return boost::math::quadrature::gauss_kronrod<double, 31>::integrate(
        slowness, to_pa, from_pa, 12, 1e-10);
}

}  // namespace

TEST_CASE("choked flow has the constants of the handbook") {
    CHECK(compute_choking_ratio() == Approx(.528).margin(5e-4));
    const LeakingTube tube = make_tube(1.0);
    const double area_m2 = .25 * kPi * 1e-6;
    CHECK(compute_mass_flow_kg_s(tube, 8e5) ==
          Approx(.040415 * .6 * area_m2 * 8e5 / std::sqrt(293.15)).epsilon(1e-4));
}

TEST_CASE("a litre falls from 800 to 300 kPa in the computed times") {
    // Choked discharge at 20 C, coefficient .6, computed apart.
    for (const auto& [hole_mm, time_s] :
         {std::pair{.1, 1048.0}, {.3, 116.0}, {.5, 42.0}, {1.0, 10.5}}) {
        CHECK(compute_fall_time_s(make_tube(hole_mm), 8e5, 3e5) ==
              Approx(time_s).epsilon(5e-3));
    }
}

TEST_CASE("fall times are the integral of the mass flow, choked and below") {
    const LeakingTube tube = make_tube(.4);
    const double choking_pa = tube.ambient_pa / compute_choking_ratio();
    for (const auto& [from_pa, to_pa] : {std::pair{8e5, 2.5e5},
                                         {1.9e5, 1.2e5},
                                         {choking_pa, 1.02e5},
                                         {1.5e5, 1.01326e5}}) {
        CHECK(compute_fall_time_s(tube, from_pa, to_pa) ==
              Approx(integrate_fall_s(tube, from_pa, to_pa)).epsilon(1e-6));
    }
    CHECK(compute_fall_time_s(tube, 8e5, 1.1e5) ==
          Approx(integrate_fall_s(tube, 8e5, choking_pa) +
                 integrate_fall_s(tube, choking_pa, 1.1e5))
              .epsilon(1e-6));
}

TEST_CASE("mass flow has no step where choking ends, and none flows in balance") {
    const LeakingTube tube = make_tube(.4);
    const double choking_pa = tube.ambient_pa / compute_choking_ratio();
    CHECK(compute_mass_flow_kg_s(tube, choking_pa * (1 - 1e-9)) ==
          Approx(compute_mass_flow_kg_s(tube, choking_pa * (1 + 1e-9))).epsilon(1e-7));
    CHECK(compute_mass_flow_kg_s(tube, tube.ambient_pa) == 0.0);
    CHECK(compute_mass_flow_kg_s(tube, 5e4) == 0.0);
}

TEST_CASE("the pressure after a fall time is the pressure asked for") {
    Cases cases(91);
    for (int i = 0; i < 300; ++i) {
        const LeakingTube tube = make_tube(cases.between(.05, 2.0));
        const double from_pa = cases.between(1.1e5, 9e5);
        const double to_pa = cases.between(1.014e5, from_pa);
        const double time_s = compute_fall_time_s(tube, from_pa, to_pa);
        CHECK(compute_pressure_after_outflow_pa(tube, from_pa, time_s) ==
              Approx(to_pa).epsilon(1e-8));
        const double empty_s = compute_fall_time_s(tube, from_pa, tube.ambient_pa);
        CHECK(compute_pressure_after_outflow_pa(tube, from_pa, empty_s * 1.01) ==
              tube.ambient_pa);
    }
}
