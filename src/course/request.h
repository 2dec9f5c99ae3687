// What a course is built from: a track, a profile or three numbers, and what is known of
// it.
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "course/surface.h"

namespace flattail::course {

inline constexpr double kUnknown = std::numeric_limits<double>::quiet_NaN();

/// Standard deviation of one horizontal coordinate of a recorded point (common practice:
/// a receiver under open sky). Too large a value cannot harm much, see METHOD 7.3.
inline constexpr double kPositionError_m = 3.0;
/// Standard deviation of a recorded height (common practice: barometer or terrain map).
inline constexpr double kHeightError_m = 1.5;
/// Rider wind / wind at 10 m on an open road (assumption). Decides how much wind costs.
inline constexpr double kOpenShelter = 0.65;
/// Sideways acceleration accepted in a dry corner (assumption, about .4 g; grip allows
/// more). A larger value makes twisting courses faster for every setup alike.
inline constexpr double kLateralLimit_m_s2 = 4.0;
/// Speed above which a lone rider brakes or sits up (assumption, 76 km/h).
inline constexpr double kDescentCap_m_s = 21.0;
/// Climb over distance that is steeper on average than any paved race course
/// (assumption).
inline constexpr double kSteepestMeanClimb = 0.10;
/// Deceleration used before a corner (assumption; a dry road allows more).
inline constexpr double kBrake_m_s2 = 3.0;

/// One point of a recorded or drawn track. NaN means "not stated".
struct RawPoint {
    double latitude_deg = 0.0;
    double longitude_deg = 0.0;
    double elevation_m = kUnknown;
    double time_s = kUnknown;
    int line = 0;  ///< where the user's file has it; 0 when unknown
};

struct RawTrack {
    std::vector<RawPoint> points;
};

/// Height over distance without directions; the road is then taken as one round loop.
struct RawProfile {
    std::vector<double> distance_m;
    std::vector<double> elevation_m;
};

/// A course of which only three numbers are known.
struct RawSketch {
    double distance_m = 0.0;
    double climb_m = 0.0;
    int laps = 1;
};

/// A part of the course that differs from the rest; only what is stated is changed.
/// Where stretches overlap the later one wins, field by field.
struct Stretch {
    double from_m = 0.0;
    double to_m = 0.0;
    std::string name;
    std::optional<Surface> surface;
    std::optional<double> shelter;  ///< rider wind / wind at 10 m, 0 to 1.5
    std::optional<double> debris;   ///< factor on the rate of cuts
    std::optional<double> speed_cap_m_s;
    int line = 0;
};

/// How the road is where no stretch says otherwise.
struct OrdinaryRoad {
    Surface surface = Surface::kOrdinary;
    double shelter = kOpenShelter;
    double debris = 1.0;
};

struct RidingLimits {
    double lateral_m_s2 = kLateralLimit_m_s2;
    double descent_cap_m_s = kDescentCap_m_s;
    double brake_m_s2 = kBrake_m_s2;
};

struct CourseRequest {
    std::variant<RawTrack, RawProfile, RawSketch> source;
    std::optional<double> official_distance_m;
    double position_error_m = kPositionError_m;
    double height_error_m = kHeightError_m;
    OrdinaryRoad road;
    std::vector<Stretch> stretches;
    RidingLimits limits;
    std::string source_file;   ///< named in problems of the track or profile
    std::string stretch_file;  ///< named in problems of the stretches
};

}  // namespace flattail::course
