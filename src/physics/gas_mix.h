// What fills a tube: three gases by their partial pressures, absolute throughout.
#pragma once

#include <array>
#include <cstddef>

namespace flattail::physics {

// Argon and traces are counted with nitrogen: they stay inside about as long.
enum class Gas { kNitrogen, kOxygen, kCarbonDioxide };
inline constexpr std::size_t kGasCount = 3;
using PerGas = std::array<double, kGasCount>;

inline constexpr std::size_t index_of(Gas gas) { return static_cast<std::size_t>(gas); }

struct GasMix {
    PerGas partial_pa{};  // absolute

    double operator[](Gas gas) const { return partial_pa[index_of(gas)]; }
    double& operator[](Gas gas) { return partial_pa[index_of(gas)]; }
};

// Volume shares of dry air. Source: ISO 2533, table 1 (argon and traces with nitrogen).
inline constexpr PerGas kAirShares = {0.790210, 0.209476, 0.000314};

/// Dry air at an absolute pressure.
GasMix make_air(double absolute_pa);

/// One gas alone at an absolute pressure.
GasMix make_pure(Gas gas, double absolute_pa);

/// Absolute pressure of a mix.
/// Source:  METHOD 5.1 (Dalton)
double sum_pressure_pa(const GasMix& mix);

/// Pressure over the outside, as a gauge shows it.
/// Source:  METHOD 5.1
double compute_gauge_pressure_pa(const GasMix& mix, double ambient_pa);

/// The mix after the contents of another of the same volume are pressed into it.
/// Source:  METHOD 5.1
GasMix add_gas(const GasMix& mix, const GasMix& added);

/// The mix after air is pumped in, or some of the mix let out, to reach a pressure.
GasMix set_pressure_with_air(const GasMix& mix, double absolute_pa);

/// The mix in a closed volume after its temperature changes.
/// Source:  METHOD 5.2 (ideal gas at constant volume)
GasMix change_temperature(const GasMix& mix, double from_k, double to_k);

}  // namespace flattail::physics
