// A change of Crr in the unit that riders compare: watts of a pair of tyres.
#pragma once

#include "physics/rolling.h"

namespace flattail::publish {

/// The condition at which tests are usually told: 45 km/h, 85 kg on both tyres.
inline double to_watts(double crr) {
    return physics::convert_crr_to_power_w(crr, {45.0 / 3.6, 85.0});
}

}  // namespace flattail::publish
