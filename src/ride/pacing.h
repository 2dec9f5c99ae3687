// Power over slopes and wind, scaled so that the ride's mean power is the stated one.
#pragma once

#include "physics/pacing.h"
#include "ride/road.h"

namespace flattail::ride {

/// Writes pace and wind_pace into the road's terms.
void apply_pacing(const physics::PacingLaw& law, const scenario::Model& model,
                  const course::TypicalRider& rider, Road& road);

/// The typical rider on one segment.
struct TypicalMoment {
    double speed_m_s = 0.0;
    double head_wind_m_s = 0.0;
};

/// His ride over the whole road, in the wind of the forecast.
std::vector<TypicalMoment> ride_typical(const scenario::Model& model,
                                        const course::TypicalRider& rider,
                                        const Road& road);

}  // namespace flattail::ride
