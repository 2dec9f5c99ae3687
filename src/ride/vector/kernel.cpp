// The ride kernel: 64 race days across a run of segments. Compiled once per instruction
// set; FLATTAIL_ISA names the variant. Plain loops only: every loop over lanes must
// vectorise (tests/unit/ride/vectorised_test.cpp), and nothing here may be an inline
// function of a shared header, or the linker could hand this variant's code to another
// machine.
//
// The sum, by hand. On a segment of length ds the mean speed u = (v0 + v1) / 2 obeys
//     u [u A + K w S + F] = P,   A = (u - v0) / ds + b1,   w = u + wt,
//     S = sqrt(u (u + 2 wt) + |wind|^2)
// (energy balance, METHOD 8.1). Multiplied by S it is G(u) = 0 with derivatives that need
// no further root: one square root and one division for the step, one division for the
// clock.
#include "ride/lane_block.h"

#define FLATTAIL_LANES _Pragma("GCC ivdep") for (int j = 0; j < kLanes; ++j)
#define FLATTAIL_INLINE __attribute__((always_inline)) static inline

namespace flattail::ride::FLATTAIL_ISA {

namespace {

// A quick step is trusted when the Newton step is below this share of the speed. Halley's
// own step would not do: it stalls where the slope is flat and hides wrong roots. Larger:
// fewer blocks settled, worst ride further off (.1: .02 to .035 %; measured, METHOD 8.3).
constexpr double kTrust = 0.1;
constexpr double kFastestM = 45.0;    // m/s; above every root, where Newton starts from
constexpr double kSolvedM = 1e-9;     // m/s; a Newton step below this has converged
constexpr int kMostNewtonSteps = 60;  // 8 are usual from above; more only without a root

struct Balance {
    double g, g1, y;  // G, G', and the part of G'' that Halley's step reuses
};

FLATTAIL_INLINE std::int64_t sign_bits(double value) {
    std::int64_t bits;
    __builtin_memcpy(&bits, &value, sizeof bits);
    return bits;
}
FLATTAIL_INLINE double larger(double a, double b) { return a > b ? a : b; }
FLATTAIL_INLINE double smaller(double a, double b) { return a < b ? a : b; }

FLATTAIL_INLINE double head_wind(const SegmentTerms& q, const LaneBlock& b, int j) {
    return b.wind_x[j] * q.head_x + b.wind_y[j] * q.head_y;
}

FLATTAIL_INLINE double air_speed_sq(const SegmentTerms& q, const LaneBlock& b, int j,
                                    double u, double w, double wt) {
    return u * (w + wt) + (q.shelter_sq * b.wind_sq[j] + kAirSpeedFloorSq);
}

FLATTAIL_INLINE Balance balance(const SegmentTerms& q, const LaneBlock& b,
                                const double* rolling, int j, double u, double w,
                                double x, double s) {
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
FLATTAIL_INLINE std::int64_t distrust(const Balance& r, double u) {
    return sign_bits(kTrust * u * r.g1 - __builtin_fabs(r.g));
}

FLATTAIL_INLINE double halley(const SegmentTerms& q, const LaneBlock& b, int j, double u,
                              double s, const Balance& r) {
    const double drag = b.drag[j] * q.air_ratio;
    const double g2 = (u * s) * (drag + q.inv_length) + r.y;  // G'' / 2
    return u - r.g * r.g1 / (r.g1 * r.g1 - r.g * g2);
}

FLATTAIL_INLINE double guess(const GuessTerms& p, double v, double power, double wt) {
    const double u = v * (v * p.cvv + p.cv) + (power * p.cp + (wt * p.cw + p.c0));
    return larger(u, 0.5 * v);
}

// Exit speed and clock. The cap acts on v1, never on u: a capped rider brakes, he does
// not walk.
FLATTAIL_INLINE void leave_segment(const SegmentTerms& q, LaneBlock& b) {
    const double cap = q.cap_m_s, twice = q.twice_length;
    FLATTAIL_LANES {
        const double v0 = b.speed[j];
        const double free = larger(b.u[j] + b.u[j] - v0, kWalkingSpeedMS);
        const double v1 = smaller(free, cap * b.cap_ratio[j]);
        b.time[j] += twice / (v0 + v1);
        b.speed[j] = v1;
    }
}

// Newton from above runs down monotonically to the largest root, the physical one (the
// balance is convex there). `start` holds a point above the root for every lane and
// becomes the root; a lane without a root ends at walking pace. Returns how many lanes
// did not converge.
int find_largest_roots(const SegmentTerms& q, const LaneBlock& b, double* start) {
    const double* rolling = b.rolling[q.surface];
    for (int k = 0; k < kMostNewtonSteps; ++k) {
        std::int64_t moved = 0;
        FLATTAIL_LANES {
            const double u = start[j], wt = head_wind(q, b, j), w = u + wt;
            const double x = air_speed_sq(q, b, j, u, w, wt), s = __builtin_sqrt(x);
            const Balance r = balance(q, b, rolling, j, u, w, x, s);
            const double step = u - r.g / r.g1;
            const double next =
                larger(r.g1 > 0 ? step : 0.5 * kWalkingSpeedMS, 0.5 * kWalkingSpeedMS);
            moved |= sign_bits(kSolvedM - __builtin_fabs(next - u));
            start[j] = next;
        }
        if (moved >= 0) return 0;
    }
    return 1;
}

// Rare: a lane that fails its own check gets the true root; its neighbours keep theirs,
// so a ride depends on no sibling.
template <class Guess>
__attribute__((noinline)) void settle(const SegmentTerms& q, LaneBlock& b,
                                      SettleCount& count, const Guess& guess_of_lane) {
    alignas(64) double root[kLanes];
    alignas(64) std::int64_t bad[kLanes];
    const double* rolling = b.rolling[q.surface];
    FLATTAIL_LANES {
        const double wt = head_wind(q, b, j), u = guess_of_lane(j, wt), w = u + wt;
        const double x = air_speed_sq(q, b, j, u, w, wt), s = __builtin_sqrt(x);
        const Balance r = balance(q, b, rolling, j, u, w, x, s);
        bad[j] = distrust(r, u);
        // A Newton step from a rising slope lands above the root.
        root[j] = r.g1 > 0 ? smaller(u - r.g / r.g1, kFastestM) : kFastestM;
    }
    count.not_solved += find_largest_roots(q, b, root);
    count.settled_block_segments += 1;
    for (int j = 0; j < kLanes; ++j) {
        if (bad[j] >= 0) continue;
        b.u[j] = root[j];
        count.settled_lanes += 1;
    }
}

}  // namespace

// One fitted guess, one Halley step, one check. Measured against the bare step:
// METHOD 8.3.
void ride_fast(const SegmentTerms* segments, const GuessTerms* guesses, int count,
               LaneBlock& b, SettleCount& settled) {
    for (int i = 0; i < count; ++i) {
        const SegmentTerms q = segments[i];
        const GuessTerms p = guesses[i];
        const double* rolling = b.rolling[q.surface];
        std::int64_t any = 0;
        FLATTAIL_LANES {
            const double wt = head_wind(q, b, j),
                         u = guess(p, b.speed[j], b.power[j], wt);
            const double w = u + wt, x = air_speed_sq(q, b, j, u, w, wt);
            b.u[j] = u;
            b.w[j] = w;
            b.x[j] = x;
            b.s[j] = __builtin_sqrt(x);
        }
        FLATTAIL_LANES {
            const double u = b.u[j], s = b.s[j];
            const Balance r = balance(q, b, rolling, j, u, b.w[j], b.x[j], s);
            b.u[j] = halley(q, b, j, u, s, r);
            any |= distrust(r, u);
        }
        if (__builtin_expect(any < 0, 0)) {
            settle(q, b, settled, [&](int j, double wt) {
                return guess(p, b.speed[j], b.power[j], wt);
            });
        }
        leave_segment(q, b);
    }
    settled.block_segments += count;
}

// The reference path: guess u = v0, two Halley steps, the same check and settling.
// Slower, no fit needed.
void ride_simple(const SegmentTerms* segments, int count, LaneBlock& b,
                 SettleCount& settled) {
    for (int i = 0; i < count; ++i) {
        const SegmentTerms q = segments[i];
        const double* rolling = b.rolling[q.surface];
        std::int64_t any = 0;
        for (int k = 0; k < 2; ++k) {
            any = 0;
            FLATTAIL_LANES {
                const double u = k == 0 ? b.speed[j] : larger(b.u[j], 0.5 * b.speed[j]);
                const double wt = head_wind(q, b, j);
                const double w = u + wt, x = air_speed_sq(q, b, j, u, w, wt);
                const double s = __builtin_sqrt(x);
                const Balance r = balance(q, b, rolling, j, u, w, x, s);
                b.s[j] = u;  // where the last step started, for the settling
                b.u[j] = halley(q, b, j, u, s, r);
                any |= distrust(r, u);
            }
        }
        if (__builtin_expect(any < 0, 0)) {
            settle(q, b, settled, [&](int j, double) { return b.s[j]; });
        }
        leave_segment(q, b);
    }
    settled.block_segments += count;
}

// Every lane to its largest root: what the accuracy check rides against.
void ride_converged(const SegmentTerms* segments, int count, LaneBlock& b,
                    SettleCount& settled) {
    for (int i = 0; i < count; ++i) {
        FLATTAIL_LANES b.u[j] = kFastestM;
        settled.not_solved += find_largest_roots(segments[i], b, b.u);
        leave_segment(segments[i], b);
    }
    settled.block_segments += count;
}

// Roots of one segment for every lane, without riding it: for the fit of the start guess.
void find_roots(const SegmentTerms& segment, const LaneBlock& b, double* roots) {
    FLATTAIL_LANES roots[j] = kFastestM;
    find_largest_roots(segment, b, roots);
}

}  // namespace flattail::ride::FLATTAIL_ISA
