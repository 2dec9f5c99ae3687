#include "physics/inflation.h"

namespace flattail::physics {

TubeState pump_with_air(double gauge_pa, double temperature_k, double ambient_pa) {
    return {make_air(gauge_pa + ambient_pa), temperature_k};
}

TubeState follow_stay(const TubeState& start, const WallLeak& leak, const Stay& stay) {
    const GasMix warmed =
        change_temperature(start.mix, start.temperature_k, stay.temperature_k);
    const PerGas rates = compute_leak_rates_per_s(leak, stay.temperature_k);
    return {leak_through_wall(warmed, make_air(stay.ambient_pa), rates, stay.duration_s),
            stay.temperature_k};
}

TubeState follow_stays(const TubeState& start, const WallLeak& leak,
                       std::span<const Stay> stays) {
    TubeState state = start;
    for (const Stay& stay : stays) state = follow_stay(state, leak, stay);
    return state;
}

double compute_gauge_after_warming_pa(double gauge_pa, double from_k, double to_k,
                                      double ambient_pa) {
    const TubeState pumped = pump_with_air(gauge_pa, from_k, ambient_pa);
    return compute_gauge_pressure_pa(change_temperature(pumped.mix, from_k, to_k),
                                     ambient_pa);
}

}  // namespace flattail::physics
