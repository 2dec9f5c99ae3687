// What happens at the side of the road: sealant, spares, failing repairs, help.
#pragma once

#include <array>
#include <cstdint>

#include "ride/ride_result.h"
#include "sampling/day_block.h"
#include "sampling/wheel_hazard.h"
#include "scenario/model.h"

namespace flattail::ride {

/// What one lane still carries, and on what it rolls.
struct LaneKit {
    int tubes = 0;
    int inflations = 0;
    bool has_pump = false;
    std::array<sampling::RollingWheel, sampling::kWheels> wheels;
};

LaneKit pack_kit(const scenario::Setup& setup);

/// A stop's outcome. The draws belong to the point, so every setup meets the same repair.
struct Stop {
    double standing_s = 0.0;
    Ending ending = Ending::kFinished;                // anything else: the day ends here
    bool refilled = false;                            // the wheel now holds a spare tube
    scenario::FillGas gas = scenario::FillGas::kAir;  // and this
    double end_surprise = 0.0;  // 1 if the day ends, else 0, less the chance of it
};

/// Chance that sealant closes a hole of this cause, before the point's draws.
double find_sealant_chance(const scenario::Model& model, const sampling::DayBlock& days,
                           sampling::FlatCause cause, int lane,
                           const sampling::RollingWheel& wheel);

/// True when sealant closes this cut.
bool try_sealant(const scenario::Model& model, const sampling::DayBlock& days,
                 const sampling::FlatPoint& point, std::uint64_t seed,
                 const sampling::RollingWheel& wheel);

/// Mends the wheel or ends the day; uses up the kit.
Stop stop_for_flat(const scenario::Model& model, const sampling::DayBlock& days,
                   const sampling::FlatPoint& point, std::uint64_t seed, LaneKit& kit);

}  // namespace flattail::ride
