// Filling a wheel at the side of the road.
#pragma once

#include "ride/roadside/lane_kit.h"
#include "scenario/model.h"

namespace flattail::ride {

/// The wheel that wants air, as it stands there.
struct EmptyWheel {
    const scenario::Model* model = nullptr;
    const scenario::Setup* setup = nullptr;
    int wheel = 0;
    double gauge_pa = 0.0;       // what is in it
    double temperature_k = 0.0;  // of the air
    /// A tube rolled flat holds nothing; a tyre that kept its shape, or a tube in it,
    /// outside air. METHOD 5.10
    bool holds_air = true;
};

struct RoadsideFill {
    bool filled = false;  // hard enough to ride on
    double gauge_pa = 0.0;
    double extra_s = 0.0;            // beyond what a cartridge takes
    double carbon_dioxide_pa = 0.0;  // cartridges' part of the absolute pressure
};

/// True when the kit still has something that reaches this wheel's valve.
bool can_fill(const EmptyWheel& empty, const LaneKit& kit);

/// Empties cartridges until the wheel is hard enough, else pumps; never above the
/// pressure that the setup starts with. Uses up cartridges.
/// Source:  METHOD 6.31
RoadsideFill fill_at_roadside(const EmptyWheel& empty, LaneKit& kit);

}  // namespace flattail::ride
