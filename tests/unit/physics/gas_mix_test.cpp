#include "physics/gas_mix.h"

#include "support/catch.h"

using namespace flattail::physics;

TEST_CASE("air is a whole, and a fifth of it is oxygen") {
    // ISO 2533, table 1: O2 20.9476 % by volume.
    const GasMix air = make_air(101325.0);
    CHECK(sum_pressure_pa(air) == Approx(101325.0).epsilon(1e-12));
    CHECK(air[Gas::kOxygen] == Approx(.209476 * 101325.0).epsilon(1e-9));
}

TEST_CASE("pumping adds air and letting out keeps the shares") {
    const GasMix filled = make_pure(Gas::kCarbonDioxide, 4e5);
    const GasMix topped = set_pressure_with_air(filled, 6e5);
    CHECK(sum_pressure_pa(topped) == Approx(6e5));
    CHECK(topped[Gas::kOxygen] == Approx(.209476 * 2e5));
    const GasMix let_out = set_pressure_with_air(topped, 3e5);
    CHECK(sum_pressure_pa(let_out) == Approx(3e5));
    CHECK(let_out[Gas::kCarbonDioxide] / 3e5 ==
          Approx(topped[Gas::kCarbonDioxide] / 6e5).epsilon(1e-12));
}

TEST_CASE("every gas follows the temperature alike") {
    const GasMix mix = add_gas(make_air(2e5), make_pure(Gas::kCarbonDioxide, 3e5));
    const GasMix warm = change_temperature(mix, 280.0, 308.0);
    for (std::size_t g = 0; g < kGasCount; ++g) {
        CHECK(warm.partial_pa[g] == Approx(1.1 * mix.partial_pa[g]).epsilon(1e-12));
    }
    CHECK(compute_gauge_pressure_pa(mix, 1e5) == Approx(4e5));
}
