// The time of one steady rider over a road: what known rides are explained with.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "course/course.h"
#include "physics/drag/yaw_drag.h"
#include "physics/force_balance.h"
#include "physics/pacing.h"
#include "scenario/model.h"

namespace flattail::scenario {

/// Who rides and in which air; the drag area comes with each question.
struct RideSetting {
    physics::Body body;
    std::array<double, kSurfaces> crr{};
    double density_kg_m3 = 1.225;  // at the start
    double wind_m_s = 0.0;         // at 10 m
    double from_rad = 0.0;
    bool from_anywhere = false;  // the mean over all directions
    double limit_m_s = course::kUncapped_m_s;
    physics::PacingLaw pacing;
    physics::YawDrag yaw = {};  // empty: the same drag area from all sides
};

/// The race with everything at its median: the setup that others are compared with, the
/// forecast halfway through a ride of `split_s`.
RideSetting describe_race(const Model& model, double split_s);

class CourseRide {
  public:
    CourseRide(const course::Course& course, const RideSetting& setting);

    /// Finish time at a mean power spread by the pacing law, from 2 m/s.
    /// Range:   power and area above zero
    /// Accuracy: the middle of a study's rides, in which power and wind wander, lies
    ///           within 1.5 %
    /// Source:  METHOD 8.1 (the step over a piece of road), METHOD 8.5 (pacing)
    double compute_time_s(double power_w, double drag_area_m2) const;

  private:
    struct Stretch {
        physics::RoadAir air;
        double length_m = 0.0;
        double crr = 0.0;
        double cap_m_s = 0.0;  // at its end
        double share = 1.0;    // of the mean power, before scaling
    };

    // At a power before the scale that makes its mean the stated one.
    struct Ride {
        double time_s = 0.0;
        double mean_share = 1.0;
    };
    Ride ride_all(double power_w, double drag_area_m2) const;

    void lay_road(const course::Course& course, const RideSetting& setting,
                  double from_rad);

    physics::Body body_;
    physics::YawDrag yaw_;
    std::vector<std::vector<Stretch>> roads_;  // one per direction of the wind
};

struct Bracket {
    double low = 0.0;
    double high = 0.0;
};

/// The power, or the drag area, with which the ride takes a time; nothing when none in
/// the bracket does.
/// Accuracy: 1e-6 relative
std::optional<double> solve_power_w(const CourseRide& ride, double time_s,
                                    double drag_area_m2, const Bracket& power_w);
std::optional<double> solve_drag_area_m2(const CourseRide& ride, double time_s,
                                         double power_w, const Bracket& area_m2);

}  // namespace flattail::scenario
