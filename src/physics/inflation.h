// The pressure in a tube from the pump to the finish: temperatures change, gases leave.
#pragma once

#include <span>

#include "physics/constants.h"
#include "physics/gas_mix.h"
#include "physics/permeation.h"

namespace flattail::physics {

/// What a tube holds, and how warm it is.
struct TubeState {
    GasMix mix;
    double temperature_k = kZeroCelsius + 20.0;
};

/// A time that a tube spends at one temperature and outside pressure.
struct Stay {
    double duration_s = 0.0;
    double temperature_k = kZeroCelsius + 20.0;
    double ambient_pa = kStandardPressure;
};

/// A tube pumped with air to a gauge pressure.
TubeState pump_with_air(double gauge_pa, double temperature_k,
                        double ambient_pa = kStandardPressure);

/// The tube after one stay: it takes the temperature at once, then leaks.
/// Source:  METHOD 5.2, METHOD 5.6
TubeState follow_stay(const TubeState& start, const WallLeak& leak, const Stay& stay);

/// The tube after several stays, one after the other.
/// Source:  METHOD 5.2, METHOD 5.6
TubeState follow_stays(const TubeState& start, const WallLeak& leak,
                       std::span<const Stay> stays);

/// Gauge pressure after a change of temperature in a closed tube.
/// Source:  METHOD 5.2 (ideal gas at constant volume)
double compute_gauge_after_warming_pa(double gauge_pa, double from_k, double to_k,
                                      double ambient_pa = kStandardPressure);

}  // namespace flattail::physics
