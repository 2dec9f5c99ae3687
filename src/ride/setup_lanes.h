// Brings one setup to the start of 64 race days.
#pragma once

#include "ride/kernel/lane_terms.h"
#include "ride/road.h"
#include "ride/traits.h"
#include "sampling/day_block.h"
#include "scenario/model.h"

namespace flattail::ride {

/// Fills terms and the fixed part of the block for every lane, clock at zero and standing
/// still, the tyres as they were pumped.
/// What leaks before the start must follow (wait_for_start in wheel_gas.h).
/// Marks must be refreshed before the first segment.
void set_lanes(const scenario::Model& model, const Road& road, const Traits& traits,
               const sampling::DayBlock& days, LaneTerms& terms, LaneBlock& block);

/// Rolling of one wheel of one lane with this tyre and inner: after a repair the spare's.
void set_wheel_rolling(const scenario::Model& model, const scenario::Setup& setup,
                       int wheel, int inner, const sampling::DayBlock& days,
                       LaneRange range, LaneTerms& terms);

}  // namespace flattail::ride
