#include "bench/textbook_ride.h"

#include <algorithm>
#include <cmath>

namespace flattail::bench {

namespace {

constexpr double kSolvedMS = 1e-6;
constexpr int kMostSteps = 50;
constexpr double kFastestMS = 45.0;

// What stays the same for one rider on one segment.
struct Stretch {
    double length_m;
    double head_wind_m_s, wind_sq;
    double drag_kg_m;
    double resistance_n;
};

Stretch meet_segment(const TextbookRider& r, const ride::SegmentTerms& q) {
    Stretch s;
    s.length_m = 0.5 * q.twice_length;
    s.head_wind_m_s = r.wind_east_m_s * q.head_x + r.wind_north_m_s * q.head_y;
    s.wind_sq = q.shelter_sq *
                (r.wind_east_m_s * r.wind_east_m_s + r.wind_north_m_s * r.wind_north_m_s);
    s.drag_kg_m = r.drag_kg_m * q.air_ratio;
    s.resistance_n =
        r.weight_n * q.sin_slope + r.rolling_n[q.surface] * q.cos_slope + r.bearing_n;
    return s;
}

// Mean speed u with u x force = power, where force includes the change of kinetic energy
// over the segment, m (v1^2 - v0^2) / 2 ds with v1 = 2 u - v0.
double solve_mean_speed(const TextbookRider& r, const Stretch& s, double power_w,
                        double v0) {
    double u = std::max(v0, 1.0);
    for (int step = 0; step < kMostSteps; ++step) {
        const double along = u + s.head_wind_m_s;
        const double air =
            std::sqrt(u * (along + s.head_wind_m_s) + s.wind_sq + ride::kAirSpeedFloorSq);
        const double per_m = 2.0 * r.mass_kg / s.length_m;
        const double force = s.drag_kg_m * along * air + s.resistance_n +
                             r.bearing_kg_s * u + per_m * u * (u - v0);
        const double force_slope = s.drag_kg_m * (air + along * along / air) +
                                   r.bearing_kg_s + per_m * (2.0 * u - v0);
        const double slope = force + u * force_slope;
        if (slope <= 0.0) {
            u = kFastestMS;
            continue;
        }
        const double next = std::max(u - (u * force - power_w) / slope, 0.5 * v0);
        const bool is_solved = std::abs(next - u) < kSolvedMS;
        u = next;
        if (is_solved) break;
    }
    return u;
}

}  // namespace

std::vector<TextbookRider> list_textbook_riders(const ride::LaneTerms& terms,
                                                const ride::LaneBlock& block) {
    std::vector<TextbookRider> riders(ride::kLanes);
    for (int j = 0; j < ride::kLanes; ++j) {
        const double twice_mass = 1.0 / terms.inverse_mass[j];
        TextbookRider& r = riders[static_cast<std::size_t>(j)];
        r.mass_kg = 0.5 * twice_mass;
        r.power_w = block.power[j] * twice_mass;
        r.weight_n = block.weight[j] * twice_mass;
        r.drag_kg_m = block.drag[j] * twice_mass;
        for (int c = 0; c < ride::kSurfaceClasses; ++c) {
            r.rolling_n[c] = block.rolling[c][j] * twice_mass;
        }
        r.bearing_n = block.bearing0[j] * twice_mass;
        r.bearing_kg_s = block.bearing1[j] * twice_mass;
        r.wind_east_m_s = block.wind_x[j];
        r.wind_north_m_s = block.wind_y[j];
        r.cap_ratio = block.cap_ratio[j];
        r.speed_m_s = block.speed[j];
        r.time_s = block.time[j];
    }
    return riders;
}

std::vector<double> ride_textbook(const std::vector<ride::SegmentTerms>& road,
                                  const std::vector<TextbookRider>& riders) {
    std::vector<double> times;
    for (const TextbookRider& r : riders) {
        double v0 = r.speed_m_s, time_s = r.time_s;
        for (const ride::SegmentTerms& q : road) {
            const Stretch s = meet_segment(r, q);
            const double share = std::max(q.pace + q.wind_pace * s.head_wind_m_s, 0.0);
            const double u = solve_mean_speed(r, s, r.power_w * share, v0);
            const double free = std::max(2.0 * u - v0, ride::kWalkingSpeedMS);
            const double v1 = std::min({free, q.cap_m_s * r.cap_ratio, q.limit_m_s});
            time_s += 2.0 * s.length_m / (v0 + v1);
            v0 = v1;
        }
        times.push_back(time_s);
    }
    return times;
}

}  // namespace flattail::bench
