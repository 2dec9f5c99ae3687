// What holds a rider back, and the speed at which a power is used up.
#pragma once

#include "physics/constants.h"
#include "physics/pedalling.h"

namespace flattail::physics {

// Bearing drag of both wheels, N and N s/m. Source: Martin et al. 1998, eq. 1
// (91 + 8.7 v mW per m/s). About 1.5 W at 10 m/s: a wrong value moves nothing that
// matters.
inline constexpr double kBearingForce = 0.091;
inline constexpr double kBearingSlope = 0.0087;

/// Rider, bicycle and all that is carried.
struct Body {
    double mass_kg = 0.0;
    double cda_m2 = 0.0;
    double crr = 0.0;            // of both wheels, weighted by their loads
    double spoke_area_m2 = 0.0;  // Fw of Martin et al. 1998, added to cda_m2
    double efficiency = kDrivetrainEfficiency;
    double gravity_m_s2 = kStandardGravity;
};

/// One place on the road at one moment.
struct RoadAir {
    double slope_ratio = 0.0;  // rise over run
    double air_density_kg_m3 = 1.225;
    double head_wind_m_s = 0.0;   // positive against the travel
    double cross_wind_m_s = 0.0;  // sign has no effect
};

/// How the air force is counted. The paper's form takes the air speed along the travel
/// alone; rides take the full air vector with a drag area that is the same from all
/// sides, so that a cross wind slows too.
enum class DragForm { kAlongTravel, kFullVector };

/// Forces against the travel.
struct Forces {
    double drag_n = 0.0;
    double rolling_n = 0.0;
    double bearings_n = 0.0;
    double gravity_n = 0.0;

    double sum_n() const { return drag_n + rolling_n + bearings_n + gravity_n; }
};

/// Forces against a rider who moves at a steady speed.
/// Range:   speed_m_s >= 0
/// Source:  METHOD 3.1 (kAlongTravel: Martin et al. 1998, eq. 1), METHOD 3.2
/// (kFullVector)
Forces compute_forces(const Body& body, const RoadAir& air, double speed_m_s,
                      DragForm form = DragForm::kFullVector);

/// Pedal power that holds a steady speed; negative where the road alone would do more.
/// Source:  METHOD 3.3
double compute_steady_power_w(const Body& body, const RoadAir& air, double speed_m_s,
                              DragForm form = DragForm::kFullVector);

/// Steady speed of a pedal power: the largest root of METHOD 3.3, and the only one above
/// zero, because the sum of forces grows with speed.
/// Range:   pedal_power_w >= 0; zero power gives the coasting speed, or 0 where nothing
/// rolls
/// Accuracy: 1e-13 relative
/// Source: METHOD 3.3 (Martin et al. 1998); bracketing by
/// Alefeld, Potra & Shi 1995
double solve_steady_speed_m_s(const Body& body, const RoadAir& air, double pedal_power_w,
                              DragForm form = DragForm::kFullVector);

/// Drag area with which a pedal power holds a speed; body.cda_m2 is not read.
/// Range:   the air must move against the rider; negative when the power is too small
/// Source:  METHOD 3.4
double solve_drag_area_m2(const Body& body, const RoadAir& air, double speed_m_s,
                          double pedal_power_w, DragForm form = DragForm::kFullVector);

/// Moment of inertia of both wheels, and the radius they roll on.
/// Source:  Martin et al. 1998, table of inputs (from memory). Worth .15 % of kinetic
/// energy.
struct WheelInertia {
    double moment_kg_m2 = 0.14;
    double radius_m = 0.311;
};

/// Mass that behaves like body and spinning wheels together when speed changes.
/// Source:  METHOD 3.5 (Martin et al. 1998, eq. 1)
double compute_effective_mass_kg(double mass_kg, const WheelInertia& wheels = {});

/// Change of speed per second at a speed above zero.
/// Source:  METHOD 3.6
double compute_acceleration_m_s2(const Body& body, const RoadAir& air, double speed_m_s,
                                 double pedal_power_w, const WheelInertia& wheels = {});

/// A stretch ridden at a mean speed with a change of speed over its duration.
struct RoadTrial {
    double mean_speed_m_s = 0.0;
    double entry_speed_m_s = 0.0;
    double exit_speed_m_s = 0.0;
    double duration_s = 0.0;
    WheelInertia wheels = {};
};

/// Five shares of the power at the wheel.
struct PowerTerms {
    double aero_w = 0.0;
    double rolling_w = 0.0;
    double bearings_w = 0.0;
    double gravity_w = 0.0;
    double kinetic_w = 0.0;

    double sum_w() const {
        return aero_w + rolling_w + bearings_w + gravity_w + kinetic_w;
    }
};

/// Power at the wheel over a road trial, term by term, before drivetrain losses.
/// Source:  METHOD 3.1 (Martin et al. 1998, eq. 1)
PowerTerms compute_power_terms(const Body& body, const RoadAir& air,
                               const RoadTrial& trial,
                               DragForm form = DragForm::kAlongTravel);

}  // namespace flattail::physics
