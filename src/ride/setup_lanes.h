// Brings one setup to the start of 64 race days.
#pragma once

#include "ride/kernel/lane_terms.h"
#include "ride/road.h"
#include "sampling/day_block.h"
#include "scenario/model.h"

namespace flattail::ride {

/// The setups whose traits a ride has. Usually all three are one setup; to see where a
/// gain comes from, a ride takes the rolling of one, the mass of another and the flats of
/// a third.
struct Traits {
    const scenario::Setup* rolling = nullptr;  // tyres, inners, pressures, as they roll
    const scenario::Setup* mass = nullptr;
    const scenario::Setup* flats = nullptr;  // hazard, kit and spares
};

/// Fills terms and the fixed part of the block for every lane, clock at zero and standing
/// still.
/// Marks must be refreshed before the first segment.
void set_lanes(const scenario::Model& model, const Road& road, const Traits& traits,
               const sampling::DayBlock& days, LaneTerms& terms, LaneBlock& block);

/// Rolling of one wheel of one lane with this tyre and inner: after a repair the spare's.
void set_wheel_rolling(const scenario::Model& model, const scenario::Setup& setup,
                       int wheel, int inner, const sampling::DayBlock& days,
                       LaneRange range, LaneTerms& terms);

}  // namespace flattail::ride
