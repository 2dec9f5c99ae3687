// Speeds of one typical rider in still air, only to see where the road needs fine steps.
#pragma once

#include <vector>

#include "course/segments.h"

namespace flattail::course {

/// Shapes: speed_sq[node], relaxation[piece]
struct TypicalRide {
    std::vector<double> speed_sq_m2_s2;
    /// Integral of (P/v^2 + 2 k v) / (m_e v) ds: how many times over the piece the rider
    /// forgets the speed of its start.
    std::vector<double> relaxation;
    double time_s = 0.0;
};

/// Rolling start at 2 m/s, never below walking pace, caps kept at the nodes.
/// Accuracy: Runge-Kutta of order 4 in speed squared, steps of at most .25 relaxations;
///           time within .001 % of much smaller steps
/// Source: METHOD 7.7 (Martin et al. 1998 for the terms)
TypicalRide ride_typically(const Course& course, const TypicalRider& rider);

}  // namespace flattail::course
