#include "course/sketch.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace flattail::course {
namespace {

constexpr double kPi = 3.141592653589793;
constexpr int kLegsPerLap = 4;
constexpr double kShortestLap_m = 1000.0;

struct Hills {
    double length_m;  ///< hill and flat together
    double height_m;
    double hilly_share;
};

/// Whole hills on each leg, so that turning back needs no kink.
Hills plan_hills(const RawSketch& sketch) {
    const double leg_m = sketch.distance_m / (kLegsPerLap * sketch.laps);
    const double per_leg = std::max(1.0, std::round(leg_m / kHillLength_m));
    const double hills = per_leg * kLegsPerLap * sketch.laps;
    const double slope_if_everywhere = 2.0 * sketch.climb_m / sketch.distance_m;
    return {leg_m / per_leg, sketch.climb_m / hills,
            std::min(1.0, slope_if_everywhere / kClimbSlope)};
}

double height_at(const Hills& hills, double place_m) {
    if (hills.height_m <= 0.0) {
        return 0.0;
    }
    const double part = place_m / hills.length_m - std::floor(place_m / hills.length_m);
    const double from_top = std::abs(part - 0.5) / (0.5 * hills.hilly_share);
    return from_top < 1.0 ? 0.5 * hills.height_m * (1.0 + std::cos(kPi * from_top)) : 0.0;
}

}  // namespace

void check_sketch(const RawSketch& sketch, const std::string& file,
                  base::ProblemList& problems) {
    const Place place = {file, 0, 0};
    if (sketch.laps < 1) {
        problems.add_error(place, fmt::format("a course of {} laps", sketch.laps),
                           "1 lap or more");
        return;
    }
    if (!(sketch.distance_m >= kShortestLap_m * sketch.laps)) {
        problems.add_error(place,
                           fmt::format("{} laps in {:g} m are shorter than 1 km each",
                                       sketch.laps, sketch.distance_m),
                           "the distance of the whole course, all laps together");
    }
    if (!(sketch.climb_m >= 0.0 &&
          sketch.climb_m <= kSteepestMeanClimb * sketch.distance_m)) {
        problems.add_error(place,
                           fmt::format("a climb of {:g} m over {:g} m is not possible",
                                       sketch.climb_m, sketch.distance_m),
                           "0 or more, at most 100 m per km");
    }
}

Path draw_sketch(const RawSketch& sketch, double spacing_m) {
    constexpr std::array<std::array<double, 2>, kLegsPerLap> kHeadings = {
        {{1.0, 0.0}, {-1.0, 0.0}, {0.0, 1.0}, {0.0, -1.0}}};
    const Hills hills = plan_hills(sketch);
    const int legs = kLegsPerLap * sketch.laps;
    const double leg_m = sketch.distance_m / legs;
    const int steps =
        std::max(2, 2 * static_cast<int>(std::ceil(leg_m / spacing_m / 2.0)));
    const double step_m = leg_m / steps;
    Path path;
    for (int i = 0; i <= legs * steps; ++i) {
        path.distance_m.push_back(i * step_m);
        const int leg = std::max(0, i - 1) / steps % kLegsPerLap;
        const std::array<double, 2>& heading = kHeadings[static_cast<std::size_t>(leg)];
        path.east_m.push_back(i > 0 ? path.east_m.back() + heading[0] * step_m : 0.0);
        path.north_m.push_back(i > 0 ? path.north_m.back() + heading[1] * step_m : 0.0);
        path.elevation_m.push_back(height_at(hills, i % steps * step_m));
        path.latitude_deg.push_back(kUnknown);
        path.longitude_deg.push_back(kUnknown);
    }
    return path;
}

}  // namespace flattail::course
