// What happens at the side of the road: what the kit mends, what fails, who helps.
#pragma once

#include <cstdint>

#include "ride/roadside/ending.h"
#include "ride/roadside/filling.h"
#include "ride/roadside/lane_kit.h"

namespace flattail::ride {

/// By what a wheel holds air again.
enum class Means : std::uint8_t {
    kNone,
    kTube,
    kPlug,
    kSealantCan,
    kPatch,
    kTopUp,
    kCar,
    kOfficials
};

/// A stop's outcome. The draws belong to the point, so every setup meets the same repair.
struct Stop {
    double standing_s = 0.0;
    Ending ending = Ending::kFinished;  // anything else: the day ends here
    Means means = Means::kNone;
    int tries = 0;                   // of tubes, plugs, patches and cans together
    bool booted = false;             // a boot lies in the tyre
    double gauge_pa = 0.0;           // in the wheel when the rider goes on
    double carbon_dioxide_pa = 0.0;  // cartridges' part of the absolute pressure
    double end_surprise = 0.0;       // 1 if the day ends, else 0, less the chance of it
};

/// A rider standing beside a soft wheel.
struct Roadside {
    const scenario::Model* model = nullptr;
    const scenario::Setup* setup = nullptr;
    const sampling::DayBlock* days = nullptr;
    std::uint64_t seed = 0;
    sampling::FlatPoint point;
    bool is_slow = false;        // the tube loses its air slowly
    double gauge_pa = 0.0;       // what is left in it
    double temperature_k = 0.0;  // of the air
    double lasted_s = 0.0;       // since the last top-up of this leak
};

/// Chance that sealant closes a hole of this cause, before the point's draws.
double find_sealant_chance(const scenario::Model& model, const sampling::DayBlock& days,
                           sampling::FlatCause cause, int lane,
                           const sampling::RollingWheel& wheel);

/// True when sealant closes this cut.
bool try_sealant(const scenario::Model& model, const sampling::DayBlock& days,
                 const sampling::FlatPoint& point, std::uint64_t seed,
                 const sampling::RollingWheel& wheel);

/// Diameter of the hole when this point lets a tube's air out slowly, else 0.
/// Source:  METHOD 6.30
double find_slow_hole_m(const scenario::Model& model, const sampling::DayBlock& days,
                        const sampling::FlatPoint& point, std::uint64_t seed,
                        const sampling::RollingWheel& wheel);

/// Mends the wheel or ends the day; uses up the kit. In this order: a car that follows; a
/// top-up of a slow leak, where air is left over; plugs; tubes; a sealant can; patches;
/// whatever air is left for a slow leak; officials.
/// Source:  METHOD 6.32
Stop stop_for_flat(const Roadside& at, LaneKit& kit);

}  // namespace flattail::ride
