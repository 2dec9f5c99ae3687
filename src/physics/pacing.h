// How a rider spreads power over slopes and wind.
#pragma once

#include <algorithm>

namespace flattail::physics {

/// Shares of the mean power by slope and head wind; how a time trialist rides. If wrong,
/// hilly courses come out too fast or too slow for all setups alike.
/// Source: METHOD 8.5 (assumption, after common practice in time trials)
struct PacingLaw {
    double uphill_gain = 2.5;      // share of power per unit of slope
    double uphill_most = 0.25;     // most share added uphill
    double coasting_slope = 0.07;  // downhill slope at which a rider stops pedalling
    double wind_gain_s_m = 0.01;   // share of power per m/s of head wind at the rider
};

/// The same power everywhere.
inline constexpr PacingLaw kSteadyPacing{0.0, 0.0, 1e9, 0.0};

/// Share of the mean power on a slope, before the scale that makes its mean one.
/// Source:  METHOD 8.5
inline double compute_slope_share(const PacingLaw& law, double sin_slope) {
    if (sin_slope >= 0.0)
        return 1.0 + std::min(law.uphill_gain * sin_slope, law.uphill_most);
    const double part = sin_slope / law.coasting_slope;
    return std::max(1.0 - part * part, 0.0);
}

}  // namespace flattail::physics
