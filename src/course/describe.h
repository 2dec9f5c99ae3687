// What can be told about a course before anyone rides it.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "course/course.h"

namespace flattail::course {

struct KilometreRow {
    double from_m = 0.0;
    double to_m = 0.0;
    double ascent_m = 0.0;
    double descent_m = 0.0;
    double mean_slope = 0.0;
    double steepest_slope = 0.0;           ///< over 100 m, signed
    int corners = 0;                       ///< capped below the descent cap
    double heading_deg = 0.0;              ///< mean direction of travel, 0 = north
    Surface surface = Surface::kOrdinary;  ///< the one that covers most of it
};

/// A part of the road with something to say about it.
struct Feature {
    double from_m = 0.0;
    double to_m = 0.0;
    double drop_m = 0.0;  ///< height lost, negative for a climb
    double lowest_cap_m_s = kUncapped_m_s;
};

struct CourseDescription {
    double length_m = 0.0;
    double raw_length_m = 0.0;
    double ascent_raw_m = 0.0;
    double ascent_m = 0.0;
    Headings headings = Headings::kFromTrack;
    std::vector<KilometreRow> kilometres;
    Feature steepest_km;                 ///< the kilometre that climbs most
    Feature longest_descent;             ///< rises of up to 5 m inside are allowed
    std::vector<Feature> corners;        ///< each bend with a cap below the descent cap
    std::vector<Feature> braking_zones;  ///< where the cap falls towards a corner
    std::array<double, kSurfaceCount> surface_m{};
    std::vector<Stretch> stretches;
};

/// The table rows and notable features of a course.
CourseDescription describe_course(const Course& course);

}  // namespace flattail::course
