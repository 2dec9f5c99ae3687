// What one ride came to.
#pragma once

#include <array>
#include <cstdint>

#include "ride/roadside/ending.h"
#include "sampling/day_block.h"

namespace flattail::ride {

/// Flats that stopped the rider.
/// Shapes:  [wheel][cause]
using FlatCounts =
    std::array<std::array<std::uint8_t, sampling::kCauses>, sampling::kWheels>;

struct RideResult {
    double time_s =
        0.0;  // without a finish: what the ride would have taken without that flat
    float lost_s = 0.0F;  // to flats: stops, waiting, getting under way again
    Ending ending = Ending::kFinished;
    std::uint8_t flats = 0;           // that stopped the rider
    FlatCounts by_cause{};            // the same, by wheel and cause
    std::uint8_t flats_at_speed = 0;  // above the speed that counts as dangerous
    std::uint8_t front_at_speed = 0;
    std::uint8_t sealed = 0;      // closed by sealant without a stop
    std::uint8_t slow_leaks = 0;  // of the flats: tubes that lost their air slowly
    // Days ended at stops less the chances of it, over the stops that were met: zero on
    // average, since each stop adds what nobody can foresee (METHOD 10.30).
    double end_surprise = 0.0;
};

}  // namespace flattail::ride
