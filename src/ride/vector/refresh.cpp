// Brings lanes up to their own clock at a mark. Compiled once per instruction set like
// the kernel, and bound by the same rule: plain loops, no shared inline functions.
#include "base/lane_math.h"
#include "ride/kernel/lane_block.h"
#include "ride/kernel/lane_loop.h"
#include "ride/kernel/lane_terms.h"

namespace flattail::ride::FLATTAIL_ISA {

namespace {

namespace lane = base::lane;

// However long the day, a rider keeps this share of his power (assumption; unreachable
// with the default fade).
constexpr double kLeastFade = 0.6;

// A forecast value at each lane's own clock. Lanes run in the inner loop, so that it
// vectorises however many hinges there are; without a forecast by the hour there are
// none.
void follow(const Forecast& f, const ForecastCurve& curve, const double* clock_s,
            const LaneRange& range, double* out) {
    FLATTAIL_LANE_LOOP
    for (int j = range.begin; j < range.end; ++j) out[j] = curve.first;
    for (int k = 0; k < f.hinges; ++k) {
        const double bend = curve.bend[k], hinge = f.clock_s[k];
        FLATTAIL_LANE_LOOP
        for (int j = range.begin; j < range.end; ++j) {
            out[j] += bend * lane::larger_of(clock_s[j] - hinge, 0.0);
        }
    }
}

// The air each lane meets now.
struct alignas(64) AirNow {
    double clock_s[kLanes], wind_x[kLanes], wind_y[kLanes];
    double temperature_k[kLanes], rain_chance[kLanes];
    double gust[kLanes];  // factor on the wind
};

// Gusts of the place, weaker at calmer hours.
void read_gusts(const Forecast& f, const PlaceFactors& place, const LaneRange& range,
                AirNow& air) {
    if (f.gusts_vary) {
        follow(f, f.gust, air.clock_s, range, air.gust);
        FLATTAIL_LANE_LOOP
        for (int j = range.begin; j < range.end; ++j) {
            air.gust[j] = 1.0 + air.gust[j] * (place.wind[j] - 1.0);
        }
        return;
    }
    FLATTAIL_LANE_LOOP
    for (int j = range.begin; j < range.end; ++j) air.gust[j] = place.wind[j];
}

void read_temperature(const RefreshTerms& r, const LaneTerms& t, const LaneBlock& b,
                      const LaneRange& range, AirNow& air) {
    FLATTAIL_LANE_LOOP
    for (int j = range.begin; j < range.end; ++j)
        air.clock_s[j] = t.start_clock_s[j] + b.time[j];
    follow(*r.forecast, r.forecast->temperature_k, air.clock_s, range, air.temperature_k);
    FLATTAIL_LANE_LOOP
    for (int j = range.begin; j < range.end; ++j) {
        air.temperature_k[j] += t.temperature_error_k[j];
    }
}

// Rolling resistance against temperature: METHOD 4.3.
FLATTAIL_LANE double temperature_factor(const RefreshTerms& r, double temperature_k) {
    const double held = lane::smaller_of(
        lane::larger_of(temperature_k, r.temperature_low_k), r.temperature_high_k);
    return 1.0 / (1.0 + r.temperature_slope * (held - r.reference_temperature_k));
}

FLATTAIL_LANE void refresh_one(const RefreshTerms& r, const PlaceFactors& place,
                               const AirNow& air, LaneTerms& t, LaneBlock& b, int j) {
    const double tired = lane::larger_of(b.time[j] - r.fade_from_s, 0.0);
    const double fade = lane::larger_of(1.0 - t.fade_per_s[j] * tired, kLeastFade);
    b.power[j] = t.power_w[j] * place.power[j] * fade * t.inverse_mass[j];

    const double x = air.wind_x[j], y = air.wind_y[j], gust = air.gust[j];
    const double east = gust * (t.wind_east[j] * x - t.wind_north[j] * y);
    const double north = gust * (t.wind_north[j] * x + t.wind_east[j] * y);
    b.wind_x[j] = east;
    b.wind_y[j] = north;
    b.wind_sq[j] = east * east + north * north;

    const double kelvin = air.temperature_k[j];
    b.drag[j] = t.drag_k[j] / kelvin;
    const double wet = t.rain_level[j] < air.rain_chance[j] ? 1.0 : 0.0;
    t.wet[j] = wet;
    b.cap_ratio[j] = 1.0 + wet * (r.wet_cap_ratio - 1.0);
    const double on_wet = b.weight[j] * (1.0 + wet * (t.wet_rolling[j] - 1.0));
    const double hysteresis = t.hysteresis_now[j] * temperature_factor(r, kelvin);
    b.rolling[0][j] = on_wet * (hysteresis + t.roughness_now[0][j]);
    b.rolling[1][j] = on_wet * (hysteresis + t.roughness_now[1][j]);
    b.rolling[2][j] = on_wet * (hysteresis + t.roughness_now[2][j]);
    b.rolling[3][j] = on_wet * (hysteresis + t.roughness_now[3][j]);
}

// Leak rates of every gas at the temperature of each lane: METHOD 5.5.
void warm_leaks(const double* temperature_k, LaneTerms& t, const LaneRange& range) {
    alignas(64) double warmth[kLanes], colder[kLanes];
    FLATTAIL_LANE_LOOP
    for (int j = range.begin; j < range.end; ++j) {
        warmth[j] = temperature_k[j] / kLeakReferenceK;
        colder[j] = 1.0 / temperature_k[j] - 1.0 / kLeakReferenceK;
        t.leak_at_k[j] = temperature_k[j];
    }
    for (int w = 0; w < kWheelCount; ++w) {
        for (int g = 0; g < kGases; ++g) {
            FLATTAIL_LANE_LOOP
            for (int j = range.begin; j < range.end; ++j) {
                t.leak_now_per_s[w][g][j] =
                    t.leak_per_s[w][g][j] * warmth[j] *
                    lane::exp(-t.activation_k[w][g][j] * colder[j]);
            }
        }
    }
}

// Rates hold as long as no lane's temperature moves: the same bits, fewer of them.
void follow_warmth(const double* temperature_k, LaneTerms& t, const LaneRange& range) {
    std::uint64_t moved = 0;
    FLATTAIL_LANE_LOOP
    for (int j = range.begin; j < range.end; ++j) {
        moved |= lane::bits_of(temperature_k[j]) ^ lane::bits_of(t.leak_at_k[j]);
    }
    if (moved != 0) warm_leaks(temperature_k, t, range);
}

// One gas of one tyre over a stay at one temperature (METHOD 5.6), told at gas_k;
// `outside` is told so, too. Adds how fast it changes afterwards.
FLATTAIL_LANE void leak_one(double outside, double stay_s, LaneTerms& t, int w, int g,
                            int j) {
    const double rate = t.leak_now_per_s[w][g][j];
    const double held = t.gas_pa[w][g][j];
    const double left = lane::exp(-rate * stay_s);
    t.gas_pa[w][g][j] = held + (outside - held) * (1.0 - left);
    t.change_pa_s[w][j] += rate * (outside - held) * left;
}

// Time that drag costs over a stretch, with yaw and without.
struct alignas(64) YawSums {
    double pace[kLanes];  // how much faster than the typical rider by power and drag
    double with_yaw[kLanes], without[kLanes];
    double weight[kLanes], tangent[kLanes], ratio[kLanes];
};

// A lane's speed on a sector: the typical one, by the cube root of power over drag, less
// half of what more head wind it meets. What a little more drag there costs in time goes
// by its force over the slope of power against speed (METHOD 8.10).
FLATTAIL_LANE void meet_sector(const YawSector& q, const LaneBlock& b, YawSums& y,
                               int j) {
    constexpr double kSlowedByHeadWind = 0.5, kSlowestMS = 2.0, kLeastAlongMS = 0.1;
    const double head = b.wind_x[j] * q.head_x + b.wind_y[j] * q.head_y;
    const double speed = lane::larger_of(
        q.speed_m_s * y.pace[j] - kSlowedByHeadWind * (head - q.head_wind_m_s),
        kSlowestMS);
    const double along = lane::larger_of(speed + head, kLeastAlongMS);
    const double across_sq =
        lane::larger_of(q.shelter_sq * b.wind_sq[j] - head * head, 0.0);
    const double air = __builtin_sqrt(along * along + across_sq);
    const double slope = b.power[j] + b.drag[j] * speed * speed * (along + air);
    y.tangent[j] = __builtin_sqrt(across_sq) / along;
    y.weight[j] = q.length_m * along * air / slope;
}

void add_sector(const YawTerms& terms, const YawSector& q, const LaneBlock& b,
                const LaneRange& range, YawSums& y) {
    FLATTAIL_LANE_LOOP
    for (int j = range.begin; j < range.end; ++j) {
        meet_sector(q, b, y, j);
        y.ratio[j] = terms.first;
    }
    for (int k = 0; k < terms.hinges; ++k) {
        const double bend = terms.bend[k], hinge = terms.tangent[k];
        FLATTAIL_LANE_LOOP
        for (int j = range.begin; j < range.end; ++j) {
            y.ratio[j] += bend * lane::larger_of(y.tangent[j] - hinge, 0.0);
        }
    }
    FLATTAIL_LANE_LOOP
    for (int j = range.begin; j < range.end; ++j) {
        y.with_yaw[j] += y.weight[j] * y.ratio[j];
        y.without[j] += y.weight[j];
    }
}

// Drag of the whole stretch ahead by the yaw that the lane's wind makes on it.
void turn_drag(const YawStretch& stretch, const LaneRange& range, LaneBlock& b) {
    YawSums y;
    const double typical = stretch.terms->typical_ratio;
    FLATTAIL_LANE_LOOP
    for (int j = range.begin; j < range.end; ++j) {
        const double ratio = b.power[j] / (b.drag[j] * typical);
        y.pace[j] = lane::exp(lane::log(ratio) * (1.0 / 3.0));
        y.with_yaw[j] = 0.0;
        y.without[j] = 0.0;
    }
    for (int s = 0; s < stretch.count; ++s) {
        add_sector(*stretch.terms, stretch.sectors[s], b, range, y);
    }
    FLATTAIL_LANE_LOOP
    for (int j = range.begin; j < range.end; ++j) {
        b.drag[j] *= y.with_yaw[j] / y.without[j];
    }
}

// Pressure follows the absolute temperature of the air (METHOD 5.2) and is that of the
// middle of the stretch ahead (METHOD 5.17); both parts of rolling resistance follow the
// gauge pressure (METHOD 4.4).
FLATTAIL_LANE void refresh_wheel(const RefreshTerms& r, const AirNow& air, LaneTerms& t,
                                 int w, int j) {
    const double now = t.gas_pa[w][0][j] + t.gas_pa[w][1][j] + t.gas_pa[w][2][j];
    const double held = now + t.change_pa_s[w][j] * t.half_way_s[j];
    const double absolute = held * (air.temperature_k[j] / t.gas_k[j]);
    const double gauge =
        lane::larger_of(absolute - r.air_pressure_pa, r.softest_gauge_pa);
    const double log_ratio = lane::log(gauge / t.reference_pa[w][j]);
    const double softer = lane::exp(-r.hysteresis_exponent * log_ratio);
    const double stiffer = lane::exp(r.roughness_exponent * log_ratio);
    t.gauge_pa[w][j] = gauge;
    t.hysteresis_now[j] += t.hysteresis[w][j] * softer;
    t.roughness_now[0][j] += t.roughness[w][0][j] * stiffer;
    t.roughness_now[1][j] += t.roughness[w][1][j] * stiffer;
    t.roughness_now[2][j] += t.roughness[w][2][j] * stiffer;
    t.roughness_now[3][j] += t.roughness[w][3][j] * stiffer;
}

void roll_on(const RefreshTerms& r, const AirNow& air, LaneTerms& t,
             const LaneRange& range) {
    FLATTAIL_LANE_LOOP
    for (int j = range.begin; j < range.end; ++j) {
        t.hysteresis_now[j] = 0.0;
        for (int c = 0; c < kSurfaceClasses; ++c) t.roughness_now[c][j] = 0.0;
    }
    for (int w = 0; w < kWheelCount; ++w) {
        FLATTAIL_LANE_LOOP
        for (int j = range.begin; j < range.end; ++j) refresh_wheel(r, air, t, w, j);
    }
}

}  // namespace

void refresh(const RefreshTerms& r, const PlaceFactors& place, LaneTerms& t, LaneBlock& b,
             const LaneRange& range) {
    AirNow air;
    const Forecast& f = *r.forecast;
    read_temperature(r, t, b, range, air);
    follow(f, f.wind_x, air.clock_s, range, air.wind_x);
    follow(f, f.wind_y, air.clock_s, range, air.wind_y);
    follow(f, f.rain_chance, air.clock_s, range, air.rain_chance);
    read_gusts(f, place, range, air);
    FLATTAIL_LANE_LOOP
    for (int j = range.begin; j < range.end; ++j) refresh_one(r, place, air, t, b, j);
    if (place.yaw.terms != nullptr) turn_drag(place.yaw, range, b);
}

void leak(const RefreshTerms& r, const double* temperature_k, const double* until_s,
          LaneTerms& t, const LaneRange& range) {
    alignas(64) double told[kLanes], stay_s[kLanes];
    follow_warmth(temperature_k, t, range);
    FLATTAIL_LANE_LOOP
    for (int j = range.begin; j < range.end; ++j) {
        told[j] = t.gas_k[j] / temperature_k[j];
        stay_s[j] = until_s[j] - t.leak_clock_s[j];
        t.leak_clock_s[j] = until_s[j];
        for (int w = 0; w < kWheelCount; ++w) t.change_pa_s[w][j] = 0.0;
    }
    for (int w = 0; w < kWheelCount; ++w) {
        for (int g = 0; g < kGases; ++g) {
            const double outside_pa = r.outside_pa[g];
            FLATTAIL_LANE_LOOP
            for (int j = range.begin; j < range.end; ++j) {
                leak_one(outside_pa * told[j], stay_s[j], t, w, g, j);
            }
        }
    }
}

void refresh_rolling(const RefreshTerms& r, LaneTerms& t, const LaneBlock& b,
                     const LaneRange& range) {
    AirNow air;
    read_temperature(r, t, b, range, air);
    roll_on(r, air, t, range);
}

void refresh_pressure(const RefreshTerms& r, LaneTerms& t, const LaneBlock& b,
                      const LaneRange& range) {
    AirNow air;
    read_temperature(r, t, b, range, air);
    leak(r, air.temperature_k, b.time, t, range);
    roll_on(r, air, t, range);
}

}  // namespace flattail::ride::FLATTAIL_ISA
