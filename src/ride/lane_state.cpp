#include "ride/lane_state.h"

namespace flattail::ride {

LaneState take_lane(const LaneTerms& t, const LaneBlock& b, int j) {
    LaneState s{};
    s.speed = b.speed[j];
    s.time = b.time[j];
    s.power = b.power[j];
    s.drag = b.drag[j];
    s.wind_x = b.wind_x[j];
    s.wind_y = b.wind_y[j];
    s.wind_sq = b.wind_sq[j];
    s.cap_ratio = b.cap_ratio[j];
    s.hysteresis_now = t.hysteresis_now[j];
    s.wet = t.wet[j];
    s.leak_clock_s = t.leak_clock_s[j];
    s.leak_at_k = t.leak_at_k[j];
    for (int c = 0; c < kSurfaceClasses; ++c) {
        s.rolling[c] = b.rolling[c][j];
        s.roughness_now[c] = t.roughness_now[c][j];
    }
    for (int w = 0; w < kWheelCount; ++w) {
        s.gauge_pa[w] = t.gauge_pa[w][j];
        for (int g = 0; g < kGases; ++g) {
            s.gas_pa[w][g] = t.gas_pa[w][g][j];
            s.leak_per_s[w][g] = t.leak_per_s[w][g][j];
            s.leak_now_per_s[w][g] = t.leak_now_per_s[w][g][j];
            s.activation_k[w][g] = t.activation_k[w][g][j];
        }
        s.hysteresis[w] = t.hysteresis[w][j];
        for (int c = 0; c < kSurfaceClasses; ++c)
            s.roughness[w][c] = t.roughness[w][c][j];
    }
    return s;
}

void put_lane(const LaneState& s, int j, LaneTerms& t, LaneBlock& b) {
    b.speed[j] = s.speed;
    b.time[j] = s.time;
    b.power[j] = s.power;
    b.drag[j] = s.drag;
    b.wind_x[j] = s.wind_x;
    b.wind_y[j] = s.wind_y;
    b.wind_sq[j] = s.wind_sq;
    b.cap_ratio[j] = s.cap_ratio;
    t.hysteresis_now[j] = s.hysteresis_now;
    t.wet[j] = s.wet;
    t.leak_clock_s[j] = s.leak_clock_s;
    t.leak_at_k[j] = s.leak_at_k;
    for (int c = 0; c < kSurfaceClasses; ++c) {
        b.rolling[c][j] = s.rolling[c];
        t.roughness_now[c][j] = s.roughness_now[c];
    }
    for (int w = 0; w < kWheelCount; ++w) {
        t.gauge_pa[w][j] = s.gauge_pa[w];
        for (int g = 0; g < kGases; ++g) {
            t.gas_pa[w][g][j] = s.gas_pa[w][g];
            t.leak_per_s[w][g][j] = s.leak_per_s[w][g];
            t.leak_now_per_s[w][g][j] = s.leak_now_per_s[w][g];
            t.activation_k[w][g][j] = s.activation_k[w][g];
        }
        t.hysteresis[w][j] = s.hysteresis[w];
        for (int c = 0; c < kSurfaceClasses; ++c)
            t.roughness[w][c][j] = s.roughness[w][c];
    }
}

}  // namespace flattail::ride
