// A road ready to be ridden: nodes every 10 to 15 m and the pieces between them.
#pragma once

#include <vector>

#include "course/request.h"
#include "flattail/problem.h"

namespace flattail::course {

/// Stands for "no limit"; finite, so that products with a rider's own factor stay finite.
inline constexpr double kUncapped_m_s = 1000.0;

/// A point of the smoothed course.
struct Node {
    double distance_m = 0.0;
    double elevation_m = 0.0;
    double latitude_deg = kUnknown;
    double longitude_deg = kUnknown;
    double curvature_per_m = 0.0;           ///< positive to the left
    double corner_cap_m_s = kUncapped_m_s;  ///< from curvature alone, for descriptions
    double cap_m_s = kUncapped_m_s;         ///< all limits, braking before them included
};

/// The road between node i and node i + 1.
struct Piece {
    double length_m = 0.0;
    double sin_slope = 0.0;  ///< height gained / length
    double east = 0.0;       ///< heading, unit vector against true north
    double north = 1.0;
    Surface surface = Surface::kOrdinary;
    double shelter = kOpenShelter;
    double debris = 1.0;
};

/// How well the directions of the road are known.
enum class Headings { kFromTrack, kAssumedLoop, kAssumedOutAndBack };

struct Course {
    std::vector<Node> nodes;    ///< one more than pieces
    std::vector<Piece> pieces;  ///< no piece crosses the end of a stretch
    double length_m = 0.0;
    double ascent_raw_m = 0.0;     ///< as recorded
    double ascent_m = 0.0;         ///< after smoothing, climbs above 1 m
    double raw_length_m = 0.0;     ///< as recorded
    double plan_cutoff_m = 0.0;    ///< bends shorter than this were smoothed away
    double height_cutoff_m = 0.0;  ///< hills shorter than this were smoothed away
    Headings headings = Headings::kFromTrack;
    RidingLimits limits;
    std::vector<Stretch> stretches;
    std::vector<Problem> warnings;
};

/// The smoothed course of a request, with caps and stretches on it.
/// Units:   SI
/// Range:   200 m to 2,000 km
/// Errors:  InvalidInput with every error found (too few points, stretches off the
/// course,
///          values out of range); doubtful things are warnings of the result
/// Accuracy: length of a straight road with 2 m noise within .1 %; length equals
///          official_distance_m to rounding when that is given
/// Source:  METHOD 7
Course build_course(const CourseRequest& request);

}  // namespace flattail::course
