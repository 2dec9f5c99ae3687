// The energy balance of one segment for one lane: the one place where the ride's equation
// stands.
// Used by the vectorised loops and by the lone rider after a stop, hence internal linkage
// and always inlined (see base/lane_math.h).
//
// The sum, by hand. On a segment of length ds the mean speed u = (v0 + v1) / 2 obeys
//     u [u A + K w S + F] = P,   A = (u - v0) / ds + b1,   w = u + wt,
//     S = sqrt(u (u + 2 wt) + |wind|^2),
// all divided by twice the effective mass (METHOD 8.1). Multiplied by S it is G(u) = 0,
// with derivatives that need no further root: one square root and one division for the
// step, one division for the clock.
#pragma once

#include "base/lane_math.h"
#include "ride/kernel/lane_block.h"

namespace flattail::ride {

/// A quick step is trusted when the Newton step is below this share of the speed.
/// Halley's own step would not do: it stalls where the slope is flat and hides wrong
/// roots. Larger: fewer blocks settled, worst ride further off (.1: .02 to .035 %;
/// measured, METHOD 8.3).
constexpr double kTrust = 0.1;

struct Balance {
    double g, g1, y;  // G, G', and the part of G'' that Halley's step reuses
};

FLATTAIL_LANE std::int64_t sign_bits(double value) {
    std::int64_t bits;
    __builtin_memcpy(&bits, &value, sizeof bits);
    return bits;
}
FLATTAIL_LANE double larger(double a, double b) { return base::lane::larger_of(a, b); }
FLATTAIL_LANE double smaller(double a, double b) { return base::lane::smaller_of(a, b); }

FLATTAIL_LANE double head_wind(const SegmentTerms& q, const LaneBlock& b, int j) {
    return b.wind_x[j] * q.head_x + b.wind_y[j] * q.head_y;
}

FLATTAIL_LANE double air_speed_sq(const SegmentTerms& q, const LaneBlock& b, int j,
                                  double u, double w, double wt) {
    return u * (w + wt) + (q.shelter_sq * b.wind_sq[j] + kAirSpeedFloorSq);
}

FLATTAIL_LANE Balance balance(const SegmentTerms& q, const LaneBlock& b,
                              const double* rolling, int j, double u, double w, double x,
                              double s) {
    const double drag = b.drag[j] * q.air_ratio;
    const double force =
        b.weight[j] * q.sin_slope + (rolling[j] * q.cos_slope + b.bearing0[j]);
    // A rider pushes or freewheels; only the brakes take power out, and they act on v1.
    const double power = b.power[j] * larger(q.pace + q.wind_pace * (w - u), 0.0);
    const double a = (u - b.speed[j]) * q.inv_length + b.bearing1[j];
    const double h = u * a + (drag * (w * s) + force);
    Balance r;
    r.g = s * (u * h - power);
    r.y = s * (u * q.inv_length + a) + drag * (w * w + x);
    r.g1 = u * r.y + s * h;
    return r;
}

// Sign bit set: |G / G'| > kTrust u, or the slope is not positive.
FLATTAIL_LANE std::int64_t distrust(const Balance& r, double u) {
    return sign_bits(kTrust * u * r.g1 - __builtin_fabs(r.g));
}

FLATTAIL_LANE double halley(const SegmentTerms& q, const LaneBlock& b, int j, double u,
                            double s, const Balance& r) {
    const double drag = b.drag[j] * q.air_ratio;
    const double g2 = (u * s) * (drag + q.inv_length) + r.y;  // G'' / 2
    return u - r.g * r.g1 / (r.g1 * r.g1 - r.g * g2);
}

FLATTAIL_LANE double guess(const GuessTerms& p, double v, double power, double wt) {
    const double u = v * (v * p.cvv + p.cv) + (power * p.cp + (wt * p.cw + p.c0));
    return larger(u, 0.5 * v);
}

/// Speed and time at the end of the first kPushOffM from rest.
struct PushOff {
    double speed_m_s, time_s;
};

/// From rest over kPushOffM: a constant force (grip and strength) up to the speed at
/// which it takes all the power, constant power from there. Force, resistance and power
/// are divided by 2 m_e.
/// Source: METHOD 8.4, closed forms with the resistance at rest
FLATTAIL_LANE PushOff push_off(double force, double resistance, double power) {
    const double net = larger(force - resistance, 1e-6);
    const double all = larger(power, 1e-6);
    const double forced = __builtin_sqrt(4.0 * net * kPushOffM);
    const double turn = smaller(all / force, forced);  // speed where power takes over
    const double left = kPushOffM - turn * turn / (4.0 * net);
    const double net_power = all * (net / force);
    const double cube = turn * turn * turn + 6.0 * net_power * larger(left, 0.0);
    const double v = base::lane::exp(base::lane::log(larger(cube, 1e-12)) * (1.0 / 3.0));
    PushOff r;
    r.speed_m_s = larger(v, 0.2 * kWalkingSpeedMS);
    r.time_s = turn / (2.0 * net) + (v * v - turn * turn) / (4.0 * net_power);
    return r;
}

}  // namespace flattail::ride
