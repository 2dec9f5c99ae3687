// Roads of known shape, turned into tracks the way a receiver would record them.
#pragma once

#include <GeographicLib/Geodesic.hpp>
#include <cmath>
#include <random>
#include <vector>

#include "course/course.h"

namespace flattail::course::test {

inline constexpr double kStartLatitude_deg = 47.0;
inline constexpr double kStartLongitude_deg = 8.0;

struct Spot {
    double east_m;
    double north_m;
    double height_m;
};

struct Noise {
    double position_m = 0.0;
    double height_m = 0.0;
    unsigned seed = 1;
};

/// Points on the globe at the given offsets from the start, with white noise on each.
inline RawTrack record(const std::vector<Spot>& spots, Noise noise = {}) {
    std::mt19937_64 bits(noise.seed);
    std::normal_distribution<double> normal;
    RawTrack track;
    for (const Spot& spot : spots) {
        const double east_m = spot.east_m + noise.position_m * normal(bits);
        const double north_m = spot.north_m + noise.position_m * normal(bits);
        RawPoint point;
        const double azimuth_deg = std::atan2(east_m, north_m) * 180.0 / M_PI;
        GeographicLib::Geodesic::WGS84().Direct(kStartLatitude_deg, kStartLongitude_deg,
                                                azimuth_deg, std::hypot(east_m, north_m),
                                                point.latitude_deg, point.longitude_deg);
        point.elevation_m = spot.height_m + noise.height_m * normal(bits);
        point.line = static_cast<int>(track.points.size()) + 10;
        track.points.push_back(point);
    }
    return track;
}

/// A straight road to the north-east with a point every step_m.
inline std::vector<Spot> draw_straight(double length_m, double step_m) {
    std::vector<Spot> spots;
    const int count = static_cast<int>(std::lround(length_m / step_m));
    for (int i = 0; i <= count; ++i) {
        spots.push_back({0.6 * i * step_m, 0.8 * i * step_m, 100.0});
    }
    return spots;
}

inline std::vector<Spot> draw_circle(double radius_m, double step_m) {
    std::vector<Spot> spots;
    const int count = static_cast<int>(std::lround(2.0 * M_PI * radius_m / step_m));
    for (int i = 0; i <= count; ++i) {
        const double angle = 2.0 * M_PI * i / count;
        spots.push_back({radius_m * std::cos(angle), radius_m * std::sin(angle), 100.0});
    }
    return spots;
}

/// A straight road over hills of the given height and wavelength.
inline std::vector<Spot> draw_hills(double length_m, double step_m, double height_m,
                                    double wave_m) {
    std::vector<Spot> spots = draw_straight(length_m, step_m);
    for (std::size_t i = 0; i < spots.size(); ++i) {
        const double place_m = static_cast<double>(i) * step_m;
        spots[i].height_m =
            0.5 * height_m * (1.0 - std::cos(2.0 * M_PI * place_m / wave_m));
    }
    return spots;
}

inline CourseRequest request_of(RawTrack track) {
    CourseRequest request;
    request.source = std::move(track);
    request.source_file = "road.gpx";
    request.stretch_file = "stretches.csv";
    return request;
}

inline bool has_problem(const std::vector<Problem>& problems, const std::string& words) {
    for (const Problem& problem : problems) {
        if (problem.what.find(words) != std::string::npos) {
            return true;
        }
    }
    return false;
}

}  // namespace flattail::course::test
