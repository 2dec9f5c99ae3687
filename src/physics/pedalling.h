// What is lost between the pedals and the rear wheel.
#pragma once

namespace flattail::physics {

// Share of pedal power that reaches the wheel. Source: Martin et al. 1998, chain
// efficiency 97.698 % (the rounded .976 is from memory). If wrong by 1 %, speeds move by
// about .35 %; differences between setups hardly move.
inline constexpr double kDrivetrainEfficiency = 0.976;

/// Power at the wheel for a power at the pedals.
/// Source:  METHOD 3.1 (Martin et al. 1998, eq. 1)
inline double compute_wheel_power_w(double pedal_power_w,
                                    double efficiency = kDrivetrainEfficiency) {
    return pedal_power_w * efficiency;
}

/// Power at the pedals for a power at the wheel.
/// Source:  METHOD 3.1 (Martin et al. 1998, eq. 1)
inline double compute_pedal_power_w(double wheel_power_w,
                                    double efficiency = kDrivetrainEfficiency) {
    return wheel_power_w / efficiency;
}

}  // namespace flattail::physics
