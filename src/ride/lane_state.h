// What changes on a lane while it rides: saved while the lane is away from its block.
#pragma once

#include "ride/kernel/lane_terms.h"

namespace flattail::ride {

struct LaneState {
    double speed, time, power, drag, wind_x, wind_y, wind_sq, cap_ratio;
    double rolling[kSurfaceClasses];
    double hysteresis_now, wet;
    double roughness_now[kSurfaceClasses];
    double gauge_pa[kWheelCount];
    double leak_clock_s, leak_at_k;
    double leak_now_per_s[kWheelCount][kGases];
    double gas_pa[kWheelCount][kGases];
    // What a repair changes:
    double leak_per_s[kWheelCount][kGases], activation_k[kWheelCount][kGases];
    double hysteresis[kWheelCount];
    double roughness[kWheelCount][kSurfaceClasses];
};

/// Copies a lane out of the block and back in, to the bit.
LaneState take_lane(const LaneTerms& terms, const LaneBlock& block, int lane);
void put_lane(const LaneState& state, int lane, LaneTerms& terms, LaneBlock& block);

}  // namespace flattail::ride
