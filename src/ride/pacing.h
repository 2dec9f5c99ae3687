// Power over slopes and wind, scaled so that the ride's mean power is the stated one.
#pragma once

#include "physics/pacing.h"
#include "ride/road.h"

namespace flattail::ride {

/// Writes pace and wind_pace into the road's terms.
void apply_pacing(const physics::PacingLaw& law, const scenario::Model& model,
                  const course::TypicalRider& rider, Road& road);

}  // namespace flattail::ride
