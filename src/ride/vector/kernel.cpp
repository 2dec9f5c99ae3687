// The ride kernel: 64 race days across a run of segments. Compiled once per instruction
// set; FLATTAIL_ISA names the variant. Plain loops only: every loop over lanes must
// vectorise (tests/unit/ride/vectorised_test.cpp), and nothing here may be an inline
// function of a shared header, or the linker could hand this variant's code to another
// machine.
#include "ride/kernel/kernel.h"

#include "base/lane_math.h"
#include "ride/kernel/balance.h"
#include "ride/kernel/lane_block.h"
#include "ride/kernel/lane_loop.h"

#define FLATTAIL_LANES FLATTAIL_LANE_LOOP for (int j = 0; j < kLanes; ++j)

namespace flattail::ride::FLATTAIL_ISA {

const Kernel& list_kernel();

void refresh(const RefreshTerms&, const PlaceFactors&, LaneTerms&, LaneBlock&,
             const LaneRange&);
void leak(const RefreshTerms& r, const double* temperature_k, const double* until_s,
          LaneTerms& t, const LaneRange& range);
void refresh_pressure(const RefreshTerms&, LaneTerms&, const LaneBlock&,
                      const LaneRange&);
void refresh_rolling(const RefreshTerms&, LaneTerms&, const LaneBlock&, const LaneRange&);

namespace {

constexpr double kFastestM = 45.0;  // m/s; above every root, where Newton starts from
constexpr double kSolvedM = 1e-9;   // m/s; a Newton step below this has converged
constexpr double kFastestLaunchM = 6.0;  // m/s gained within one launch step, at most
constexpr int kMostNewtonSteps = 60;  // 8 are usual from above; more only without a root

// Exit speed and clock. The cap acts on v1, never on u: a capped rider brakes, he does
// not walk.
FLATTAIL_LANE void leave_segment(const SegmentTerms& q, LaneBlock& b) {
    const double cap = q.cap_m_s, limit = q.limit_m_s, twice = q.twice_length;
    FLATTAIL_LANES {
        const double v0 = b.speed[j];
        const double free = larger(b.u[j] + b.u[j] - v0, kWalkingSpeedMS);
        const double v1 = smaller(free, smaller(cap * b.cap_ratio[j], limit));
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

void launch(const SegmentTerms& segment, double launch_force_n, const LaneTerms& terms,
            LaneBlock& b) {
    const double* rolling = b.rolling[segment.surface];
    FLATTAIL_LANES {
        const double resist = b.weight[j] * segment.sin_slope +
                              rolling[j] * segment.cos_slope + b.bearing0[j];
        const PushOff push = push_off(launch_force_n * terms.inverse_mass[j], resist,
                                      b.power[j] * segment.pace);
        b.time[j] += push.time_s;
        b.speed[j] = push.speed_m_s;
    }
    SegmentTerms q = segment;
    double from = kPushOffM;
    while (from < kLaunchM) {
        const double to = smaller(from * kLaunchGrowth, kLaunchM);
        q.twice_length = 2.0 * (to - from);
        q.inv_length = 1.0 / (to - from);
        FLATTAIL_LANES b.u[j] = b.speed[j] + kFastestLaunchM;
        find_largest_roots(q, b, b.u);
        leave_segment(q, b);
        from = to;
    }
}

const Kernel kKernel{ride_fast, ride_simple, ride_converged,   find_roots,     launch,
                     refresh,   leak,        refresh_pressure, refresh_rolling};

}  // namespace

const Kernel& list_kernel() { return kKernel; }

}  // namespace flattail::ride::FLATTAIL_ISA
