// Fills in the power or the drag area that follows from a known ride.
#pragma once

#include "scenario/rider/drag_area.h"
#include "scenario/rider/known_ride.h"

namespace flattail::scenario {

/// Needs everything else of the scenario in the draft, without a mistake in it. What is
/// solved is not known exactly: the spread is stated where the value is listed.
/// Errors:  a problem where no rider would need such a power or drag area
void settle_rider(Draft& draft, const KnownRide& known, const DragStatement& drag);

}  // namespace flattail::scenario
