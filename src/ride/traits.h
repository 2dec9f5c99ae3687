// Which setup brings which trait to a ride.
#pragma once

#include "scenario/model.h"

namespace flattail::ride {

/// The setups whose traits a ride has. Usually all are one setup; to see where a gain
/// comes from, a ride takes the rolling of one, the leaks of another and so on.
struct Traits {
    const scenario::Setup* rolling = nullptr;  // tyres, inners, pressures, as they roll
    const scenario::Setup* leak = nullptr;     // how fast its inners lose air
    const scenario::Setup* mass = nullptr;
    const scenario::Setup* flats = nullptr;  // hazard, kit and spares

    static Traits of(const scenario::Setup& setup) {
        return {&setup, &setup, &setup, &setup};
    }
};

}  // namespace flattail::ride
