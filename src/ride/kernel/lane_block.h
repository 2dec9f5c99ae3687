// What the ride kernel reads and writes: constants per segment, state per lane.
// A lane is one race day; a block is 64 of them ridden side by side by one setup.
#pragma once

#include <cstdint>

namespace flattail::ride {

constexpr int kLanes = 64;
constexpr int kSurfaceClasses = 4;
constexpr int kWheelCount = 2;

/// A rider who cannot hold this speed walks. Assumption (2.7 km/h pushing a bicycle
/// uphill); reached only on walls of 25 % and more, so results do not depend on it.
constexpr double kWalkingSpeedMS = 0.75;

/// Launch from rest: closed forms up to the first distance, then steps growing by the
/// factor up to the second, where ordinary segments take over. Halving the growth moves a
/// start by less than .01 s (tests/reference/launch_test.cpp).
constexpr double kPushOffM = 0.3;
constexpr double kLaunchGrowth = 1.5;
constexpr double kLaunchM = 20.0;

/// Keeps the square root of still air away from zero; m2/s2, 30 micrometres per second.
constexpr double kAirSpeedFloorSq = 1e-9;

/// What the kernel needs of one stretch of road.
/// Source: METHOD 8.1.
struct SegmentTerms {
    double inv_length;    // 1 / m
    double twice_length;  // m
    double sin_slope;
    double cos_slope;
    double head_x;      // heading (east) times shelter
    double head_y;      // heading (north) times shelter
    double shelter_sq;  // shelter squared
    double air_ratio;   // air density here / at the start
    double pace;        // share of the day's power on this slope
    double wind_pace;   // further share per m/s of head wind
    double cap_m_s;     // highest speed at its end on a dry road; min with the next one's
    double limit_m_s;   // the same whatever the road: a stated speed limit
    std::int64_t surface;
};

/// Start guess of u on one segment: c0 + v (cv + cvv v) + P cp + wt cw, never below v
/// / 2.
struct GuessTerms {
    double c0, cv, cvv, cp, cw;
};

/// State and constants of 64 race days under one setup. Lane constants are divided by
/// twice the effective mass, which leaves one parameter less in the balance.
/// Units: SI.
struct alignas(64) LaneBlock {
    double speed[kLanes];  // at the end of the last segment
    double time[kLanes];   // since the start
    // Refreshed at marks:
    double power[kLanes];                     // P / 2 m_e
    double drag[kLanes];                      // rho CdA / 4 m_e
    double rolling[kSurfaceClasses][kLanes];  // m g Crr / 2 m_e
    double wind_x[kLanes], wind_y[kLanes];    // from where it blows, at 10 m: east, north
    double wind_sq[kLanes];
    // Fixed for the day:
    double weight[kLanes];  // m g / 2 m_e
    double bearing0[kLanes], bearing1[kLanes];
    double cap_ratio[kLanes];  // wet road and skill, times the segment's cap
    // Work space of one segment:
    double u[kLanes], w[kLanes], x[kLanes], s[kLanes];
};

/// How often the quick step was not trusted. Counts, not shares.
struct SettleCount {
    std::int64_t block_segments = 0;
    std::int64_t settled_block_segments = 0;
    std::int64_t settled_lanes = 0;
    std::int64_t not_solved = 0;
};

}  // namespace flattail::ride
