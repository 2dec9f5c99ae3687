// Speed limits along the road: corners, descents, stretches, and braking before them.
#pragma once

#include <vector>

#include "course/course.h"
#include "course/path.h"

namespace flattail::course {

/// Tightest line that a bicycle rides around a cone on the road (assumption).
inline constexpr double kTightestRadius_m = 3.0;

/// Signed curvature at each point of an evenly smoothed path: turn / length of road.
/// Accuracy: circle of radius R in cells of h: 1 + (h/R)^2/24 of 1/R
/// Source:  METHOD 7.5
std::vector<double> measure_curvature(const Path& path);

/// Speed at which the sideways acceleration reaches its limit: sqrt(limit / |curvature|).
/// Source: METHOD 7.5, v^2 = a r
double limit_corner_speed(double curvature_per_m, double lateral_m_s2);

/// Sets each node's cap: the least of corner, descent and stretch limits (a node at the
/// end of a stretch has both sides' limits), then lowered so that braking reaches the
/// next cap in time: cap_i^2 <= cap_(i+1)^2 + 2 b ds.
/// Source: METHOD 7.6
void set_caps(Course& course);

/// Lowers node caps for braking at brake_m_s2 before lower ones.
void brake_ahead(std::vector<Node>& nodes, double brake_m_s2);

}  // namespace flattail::course
