// A ride by adaptive Runge-Kutta over the pieces of a course: the judge of the segment
// scheme.
// Written on its own equations in SI, apart from the kernel's.
#pragma once

#include "course/course.h"
#include "scenario/model.h"

namespace flattail::support {

/// One day of one rider; everything constant but the road.
struct ReferenceRider {
    double power_w = 0.0;  // at the wheel
    double mass_kg = 0.0;
    double effective_mass_kg = 0.0;
    double half_rho_cda = 0.0;  // at the start's altitude
    double crr[4] = {};
    double wind_x = 0.0, wind_y = 0.0;  // from where it blows, 10 m
    double launch_force_n = 0.0;
    std::vector<physics::YawRow> drag_by_yaw = {};  // empty: the same from all sides
};

/// The rider of a model made by make_plain_model: all values certain.
ReferenceRider make_reference_rider(const scenario::Model& model);

/// Finish time from standstill, or from the steady speed of the first metres.
/// Accuracy: Boost.Odeint, Dormand-Prince, 1e-10 relative per step
double ride_reference(const course::Course& course, const ReferenceRider& rider,
                      scenario::StartKind start);

/// Time and speed after `distance_m` from rest on a flat road of `surface`.
struct ReferenceStart {
    double time_s = 0.0;
    double speed_m_s = 0.0;
};
ReferenceStart start_reference(const ReferenceRider& rider, double distance_m);

}  // namespace flattail::support
