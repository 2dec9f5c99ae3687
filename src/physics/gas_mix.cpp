#include "physics/gas_mix.h"

#include "base/expects.h"

namespace flattail::physics {
namespace {

GasMix scale(const GasMix& mix, double factor) {
    GasMix scaled = mix;
    for (double& partial_pa : scaled.partial_pa) partial_pa *= factor;
    return scaled;
}

}  // namespace

GasMix make_air(double absolute_pa) { return scale(GasMix{kAirShares}, absolute_pa); }

GasMix make_pure(Gas gas, double absolute_pa) {
    GasMix mix;
    mix[gas] = absolute_pa;
    return mix;
}

double sum_pressure_pa(const GasMix& mix) {
    return mix[Gas::kNitrogen] + mix[Gas::kOxygen] + mix[Gas::kCarbonDioxide];
}

double compute_gauge_pressure_pa(const GasMix& mix, double ambient_pa) {
    return sum_pressure_pa(mix) - ambient_pa;
}

GasMix add_gas(const GasMix& mix, const GasMix& added) {
    GasMix sum = mix;
    for (std::size_t g = 0; g < kGasCount; ++g) sum.partial_pa[g] += added.partial_pa[g];
    return sum;
}

GasMix set_pressure_with_air(const GasMix& mix, double absolute_pa) {
    FLATTAIL_EXPECTS(absolute_pa >= 0.0);
    const double held_pa = sum_pressure_pa(mix);
    if (absolute_pa >= held_pa) return add_gas(mix, make_air(absolute_pa - held_pa));
    return scale(mix, absolute_pa / held_pa);
}

GasMix change_temperature(const GasMix& mix, double from_k, double to_k) {
    FLATTAIL_EXPECTS(from_k > 0.0 && to_k > 0.0);
    return scale(mix, to_k / from_k);
}

}  // namespace flattail::physics
