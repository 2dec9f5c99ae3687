// The course cut into the segments that the ride steps over.
#pragma once

#include <array>
#include <vector>

#include "course/course.h"

namespace flattail::course {

/// The one rider whose speeds decide where segments are cut. Any plausible rider will do:
/// a wrong one moves the cuts, not the road.
struct TypicalRider {
    double power_w = 200.0;  ///< at the wheel
    double mass_kg = 82.5;
    double effective_mass_kg = 83.5;  ///< with the turning of the wheels
    double half_rho_cda_kg_m = 0.165;
    std::array<double, kSurfaceCount> crr = {0.0038, 0.0045, 0.0060, 0.011};
};

/// What a segment may hide. Smaller numbers give more segments and a finer ride. With
/// these a 90 km road over 2.5 % hills has 730 segments and is timed within .005 %; over
/// 6 % hills 1,400 and .02 %; over 8 % hills of 15 m, the worst tried, 2,200 and .4 %.
struct SplitOptions {
    double max_length_m = 130.0;      ///< winds and pacing change over the road
    double max_energy_ratio = 0.5;    ///< (max - min) / min of speed squared
    double max_relaxation = 1.5;      ///< lengths of the rider's own adjustment
    double max_hidden_height = 0.02;  ///< mean height off the chord, share of v^2 / g
    double max_turn_rad = 0.6;        ///< sum of changes of heading inside one segment
    double mark_spacing_m = 2000.0;   ///< segments are cut at marks, evenly spread
};

/// One step of the ride. All that varies along the road and not with the rider.
struct Segment {
    double from_m = 0.0;
    double length_m = 0.0;
    double sin_slope = 0.0;
    double cos_slope = 1.0;
    double head_x = 0.0;  ///< mean heading x shelter, east
    double head_y = 0.0;  ///< mean heading x shelter, north
    double shelter_sq = 0.0;
    double altitude_m = 0.0;         ///< of its middle
    double cap_m_s = kUncapped_m_s;  ///< at its end node, where the ride applies it
    double debris = 1.0;
    Surface surface = Surface::kOrdinary;
};

/// The segments of a course.
/// Units:   SI
/// Accuracy: lengths sum to course.length_m and rises to its height difference, to
/// rounding;
///          no segment crosses a stretch, a mark, the start of a braking zone or its end
/// Source:  METHOD 7.7
std::vector<Segment> split_course(const Course& course, const TypicalRider& rider,
                                  const SplitOptions& options = {});

/// Places, about 2 km apart, at which what changes with the clock is read anew.
struct Marks {
    std::vector<int> first_segment;  ///< strictly rising, the first is 0
};

/// The marks that `segments` were cut at when split with this spacing.
Marks find_marks(const std::vector<Segment>& segments, double mark_spacing_m);

}  // namespace flattail::course
