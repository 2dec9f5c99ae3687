#include "ride/pacing.h"

#include <algorithm>
#include <cmath>

#include "physics/constants.h"
#include "ride/lone_step.h"

namespace flattail::ride {

namespace {

// Rounds of riding and scaling. Three bring the mean power of a hilly course within .1 %
// of the stated one.
constexpr int kRounds = 4;

// One lane with the typical rider's constants.
void set_typical_lane(const course::TypicalRider& rider, LaneBlock& b) {
    const double half = 0.5 / rider.effective_mass_kg;
    b.power[0] = rider.power_w * half;
    b.drag[0] = rider.half_rho_cda_kg_m * half;
    b.weight[0] = rider.mass_kg * physics::kStandardGravity * half;
    for (std::size_t c = 0; c < rider.crr.size(); ++c) {
        b.rolling[c][0] = b.weight[0] * rider.crr[c];
    }
    b.bearing0[0] = kBearingForceN * half;
    b.bearing1[0] = kBearingForcePerSpeed * half;
    b.cap_ratio[0] = 1.0;
    b.speed[0] = 5.0;
    b.time[0] = 0.0;
}

// The wind of the forecast at the rider's own clock.
void set_wind(const Road& road, LaneBlock& b) {
    const double clock_s = road.refresh.start_clock_s + b.time[0];
    b.wind_x[0] = read_forecast(road.forecast, road.forecast.wind_x, clock_s);
    b.wind_y[0] = read_forecast(road.forecast, road.forecast.wind_y, clock_s);
    b.wind_sq[0] = b.wind_x[0] * b.wind_x[0] + b.wind_y[0] * b.wind_y[0];
}

double find_fade(const scenario::Model& model, double time_s) {
    const double per_s = find_median(model, model.rider.fade_per_h) / 3600.0;
    return 1.0 - per_s * std::max(time_s - model.rider.fade_from_s, 0.0);
}

// Time-averaged share of the stated power over a whole ride, fade included.
double measure_mean_share(const scenario::Model& model, const Road& road, LaneBlock b) {
    const double power = b.power[0];
    double work = 0.0;
    for (const SegmentTerms& q : road.terms) {
        const double before = b.time[0], fade = find_fade(model, before);
        b.power[0] = power * fade;
        set_wind(road, b);
        step_lane(q, b, 0);
        const double share = std::max(q.pace + q.wind_pace * head_wind(q, b, 0), 0.0);
        work += share * fade * (b.time[0] - before);
    }
    return work / b.time[0];
}

}  // namespace

std::vector<TypicalMoment> ride_typical(const scenario::Model& model,
                                        const course::TypicalRider& rider,
                                        const Road& road) {
    LaneBlock b{};
    set_typical_lane(rider, b);
    const double power = b.power[0];
    std::vector<TypicalMoment> ridden;
    for (const SegmentTerms& q : road.terms) {
        const double before = b.time[0];
        b.power[0] = power * find_fade(model, before);
        set_wind(road, b);
        step_lane(q, b, 0);
        ridden.push_back(
            {0.5 * q.twice_length / (b.time[0] - before), head_wind(q, b, 0)});
    }
    return ridden;
}

void apply_pacing(const physics::PacingLaw& law, const scenario::Model& model,
                  const course::TypicalRider& rider, Road& road) {
    LaneBlock b{};
    set_typical_lane(rider, b);
    double scale = 1.0;
    for (int round = 0; round < kRounds; ++round) {
        for (SegmentTerms& q : road.terms) {
            const double share = physics::compute_slope_share(law, q.sin_slope);
            q.pace = scale * share;
            // Everywhere alike: who coasts pedals again where a head wind would stop him.
            q.wind_pace = scale * law.wind_gain_s_m;
        }
        scale /= measure_mean_share(model, road, b);
    }
}

}  // namespace flattail::ride
