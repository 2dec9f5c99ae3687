#include "ride/lone_step.h"

#include <cmath>

namespace flattail::ride {

namespace {

constexpr double kFastestMS = 45.0;
constexpr double kSolvedMS = 1e-9;
// With a Newton step below this, Halley's is the last: it leaves the cube over the square
// of the speed, 1e-11 m/s at 10 m/s.
constexpr double kLastHalleyMS = 1e-3;
constexpr int kMostSteps = 60;
constexpr double kNoCapMS = 1000.0;

}  // namespace

double find_lane_root(const SegmentTerms& q, const LaneBlock& b, int j) {
    const double* rolling = b.rolling[q.surface];
    const double wt = head_wind(q, b, j);
    // From the entry speed, where the slope is nearly always rising; Halley's step takes
    // three rounds where Newton's takes five. Without a rising slope Newton runs down
    // from the top.
    double u = larger(b.speed[j], 0.5 * kWalkingSpeedMS);
    bool from_top = false;
    for (int k = 0; k < kMostSteps; ++k) {
        const double w = u + wt, x = air_speed_sq(q, b, j, u, w, wt), s = std::sqrt(x);
        const Balance r = balance(q, b, rolling, j, u, w, x, s);
        if (r.g1 <= 0.0 && !from_top) {
            u = kFastestMS;
            from_top = true;
            continue;
        }
        const double step = from_top ? u - r.g / r.g1 : halley(q, b, j, u, s, r);
        const double next = larger(r.g1 > 0.0 ? step : 0.0, 0.5 * kWalkingSpeedMS);
        const bool solved = from_top ? std::fabs(next - u) < kSolvedMS
                                     : std::fabs(r.g) < kLastHalleyMS * r.g1;
        u = smaller(next, kFastestMS);
        if (solved) break;
    }
    return u;
}

void step_lane(const SegmentTerms& q, LaneBlock& b, int j) {
    const double u = find_lane_root(q, b, j);
    const double v0 = b.speed[j];
    const double free = larger(u + u - v0, kWalkingSpeedMS);
    const double v1 = smaller(free, smaller(q.cap_m_s * b.cap_ratio[j], q.limit_m_s));
    b.time[j] += q.twice_length / (v0 + v1);
    b.speed[j] = v1;
}

void push_off_lane(const SegmentTerms& q, double force_n, double inverse_mass,
                   LaneBlock& b, int j) {
    const double resist =
        b.weight[j] * q.sin_slope + b.rolling[q.surface][j] * q.cos_slope + b.bearing0[j];
    const PushOff push = push_off(force_n * inverse_mass, resist, b.power[j] * q.pace);
    b.time[j] += push.time_s;
    b.speed[j] = push.speed_m_s;
}

SegmentTerms shorten(const SegmentTerms& segment, double length_m, bool reaches_end) {
    SegmentTerms part = segment;
    part.inv_length = 1.0 / length_m;
    part.twice_length = 2.0 * length_m;
    if (!reaches_end) part.cap_m_s = kNoCapMS;
    return part;
}

}  // namespace flattail::ride
