// Power over slopes and wind, scaled so that the ride's mean power is the stated one.
#pragma once

#include "ride/road.h"

namespace flattail::ride {

/// Share of the day's power on a slope.
double compute_slope_share(const PacingLaw& law, double sin_slope);

/// Writes pace and wind_pace into the road's terms.
void apply_pacing(const PacingLaw& law, const scenario::Model& model,
                  const course::TypicalRider& rider, Road& road);

}  // namespace flattail::ride
