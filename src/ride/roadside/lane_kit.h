// What one lane still carries, and on what it rolls.
#pragma once

#include <array>

#include "sampling/day_block.h"
#include "sampling/wheel_hazard.h"
#include "scenario/model.h"

namespace flattail::ride {

/// A tube that loses its air too slowly to be noticed at once.
struct SlowLeak {
    double hole_m = 0.0;        // diameter; 0: tight
    bool topped_up = false;     // once already
    double topped_up_s = 0.0;   // clock when it was
    sampling::FlatPoint point;  // what made the hole
};

struct LaneKit {
    int tubes = 0;
    int cartridges_used = 0;  // of Kit::cartridge_kg, from its front
    int plugs = 0;
    int patches = 0;
    int boots = 0;
    int sealant_cans = 0;
    std::array<sampling::RollingWheel, sampling::kWheels> wheels;
    std::array<SlowLeak, sampling::kWheels> leaks;
};

LaneKit pack_kit(const scenario::Setup& setup);

}  // namespace flattail::ride
