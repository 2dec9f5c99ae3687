// What a lone rider meets on the road: holes, leaks, soft tyres, stops.
#include <algorithm>
#include <cmath>

#include "physics/cartridge.h"
#include "physics/outflow.h"
#include "ride/lone_rider.h"
#include "ride/wheel_gas.h"

namespace flattail::ride {

namespace {

// Holes are looked at after every segment, about ten seconds, and not after the short
// steps of a launch. Longer: a soft tyre is noticed later.
constexpr double kShortestLook_s = 5.0;

}  // namespace

void LoneRider::meet(const sampling::FlatPoint& point) {
    if (!is_hit(point)) return;
    const sampling::RollingWheel& wheel = kit_.wheels[point.wheel];
    if (try_sealant(*ride_.model, *ride_.days, point, ride_.seed, wheel)) {
        return seal(point);
    }
    const double hole_m =
        find_slow_hole_m(*ride_.model, *ride_.days, point, ride_.seed, wheel);
    if (hole_m > 0.0) return start_leak(point, hole_m);
    go_flat(point, Loss::kSudden);
}

// Sealant closes the hole after some pressure has gone; too soft, and the wheel is flat
// anyway.
void LoneRider::seal(const sampling::FlatPoint& point) {
    const auto& inner =
        ride_.model->inners[static_cast<std::size_t>(kit_.wheels[point.wheel].inner)];
    const double loss = inner.sealant_loss_pa.is_set()
                            ? ride_.days->of(inner.sealant_loss_pa)[lane_]
                            : 0.0;
    if (terms_.gauge_pa[point.wheel][lane_] - loss < ride_.refresh->softest_gauge_pa) {
        go_flat(point, Loss::kSudden);
        return;
    }
    let_out(ride_.refresh->air_pressure_pa, loss, point.wheel, lane_, terms_);
    result_.sealed += 1;
    refresh(Pressure::kToo);
    TraceEvent event;
    event.kind = TraceKind::kSealed;
    event.cause = point.cause;
    log(event, point.wheel);
}

double LoneRider::find_temperature_k() const {
    const Forecast& forecast = *ride_.refresh->forecast;
    return read_forecast(forecast, forecast.temperature_k,
                         terms_.start_clock_s[lane_] + block_.time[lane_]) +
           terms_.temperature_error_k[lane_];
}

bool LoneRider::is_leaking() const {
    return kit_.leaks[0].hole_m > 0.0 || kit_.leaks[1].hole_m > 0.0;
}

// Two holes let out as much as one of their joint area.
void LoneRider::start_leak(const sampling::FlatPoint& point, double hole_m) {
    if (!is_leaking()) leaks_until_s_ = block_.time[lane_];
    SlowLeak& leak = kit_.leaks[point.wheel];
    if (leak.hole_m <= 0.0) leak.point = point;
    leak.hole_m = std::hypot(leak.hole_m, hole_m);
    TraceEvent event;
    event.kind = TraceKind::kSlowLeak;
    event.cause = point.cause;
    log(event, point.wheel);
}

// Lets out what has escaped since the last look; a tyre that feels soft is seen to.
void LoneRider::follow_leaks() {
    if (!is_leaking()) return;
    const double time_s = block_.time[lane_] - leaks_until_s_;
    if (time_s < kShortestLook_s) return;
    leaks_until_s_ = block_.time[lane_];
    for (int wheel = 0; wheel < kWheelCount; ++wheel) follow_leak(wheel, time_s);
    refresh(Pressure::kLetOut);
    for (int wheel = 0; wheel < kWheelCount && !has_ended(); ++wheel) {
        const SlowLeak& leak = kit_.leaks[static_cast<std::size_t>(wheel)];
        if (leak.hole_m <= 0.0) continue;
        if (find_gauge_pa(wheel) > ride_.model->repair.noticed_pa) continue;
        go_flat(sampling::FlatPoint(leak.point), Loss::kSlow);
    }
}

void LoneRider::follow_leak(int wheel, double time_s) {
    const auto w = static_cast<std::size_t>(wheel);
    if (kit_.leaks[w].hole_m <= 0.0 || time_s <= 0.0) return;
    const int tyre = ride_.traits.rolling->wheels[w].tyre;
    physics::LeakingTube tube;
    tube.hole.diameter_m = kit_.leaks[w].hole_m;
    tube.volume_m3 =
        physics::compute_torus(ride_.model->tyres[static_cast<std::size_t>(tyre)].width_m)
            .volume_m3;
    tube.temperature_k = find_temperature_k();
    tube.ambient_pa = ride_.refresh->air_pressure_pa;
    const double before_pa = terms_.gauge_pa[wheel][lane_] + tube.ambient_pa;
    const double after_pa =
        physics::compute_pressure_after_outflow_pa(tube, before_pa, time_s);
    let_out(tube.ambient_pa, before_pa - after_pa, wheel, lane_, terms_);
}

// The wheel as its own setup has it: where rolling is another setup's, so is its
// pressure.
double LoneRider::find_gauge_pa(int wheel) const {
    const auto w = static_cast<std::size_t>(wheel);
    return terms_.gauge_pa[wheel][lane_] + ride_.traits.flats->wheels[w].gauge_pa -
           ride_.traits.rolling->wheels[w].gauge_pa;
}

void LoneRider::count_flat(const sampling::FlatPoint& point, Loss loss) {
    const auto add = [](std::uint8_t& count, bool happened) {
        if (happened && count < 255) ++count;
    };
    // A tyre that goes soft slowly throws nobody.
    const bool fast =
        loss == Loss::kSudden && block_.speed[lane_] > ride_.model->flats.at_speed_m_s;
    add(result_.flats, true);
    add(result_.by_cause[point.wheel][static_cast<std::size_t>(point.cause)], true);
    add(result_.slow_leaks, loss == Loss::kSlow);
    add(result_.flats_at_speed, fast);
    add(result_.front_at_speed, fast && point.wheel == 0);
    TraceEvent event;
    event.kind = loss == Loss::kSlow ? TraceKind::kSoft : TraceKind::kFlat;
    event.cause = point.cause;
    event.at_speed = fast;
    log(event, point.wheel);
}

void LoneRider::go_flat(const sampling::FlatPoint& point, Loss loss) {
    SlowLeak& leak = kit_.leaks[point.wheel];
    const double left_pa = loss == Loss::kSlow ? find_gauge_pa(point.wheel) : 0.0;
    // Topped up once, it is the same flat that stops the rider again.
    if (loss == Loss::kSudden || !leak.topped_up) count_flat(point, loss);
    count_launch();
    if (ride_.stops_cost && !brake_to_stop()) {
        leak = {};
        return;
    }
    if (has_ended()) return;  // rolled to a stop behind a gate that was closed
    const Roadside at{ride_.model,
                      ride_.traits.flats,
                      ride_.days,
                      ride_.seed,
                      point,
                      loss == Loss::kSlow,
                      left_pa,
                      find_temperature_k(),
                      block_.time[lane_] - leak.topped_up_s};
    const Stop stop = stop_for_flat(at, kit_);
    block_.time[lane_] += stop.standing_s;
    restart_s_ = block_.time[lane_];
    result_.lost_s += static_cast<float>(stop.standing_s);
    result_.ending = stop.ending;
    result_.end_surprise += stop.end_surprise;
    TraceEvent event;
    event.kind = has_ended() ? TraceKind::kEnded : TraceKind::kMended;
    event.cause = point.cause;
    event.stop = stop;
    event.ending = stop.ending;
    log(event, point.wheel);
    if (!has_ended()) mend(point.wheel, stop);
}

void LoneRider::log(TraceEvent event, int wheel) const {
    if (ride_.trace == nullptr || ride_.traced_lane != lane_) return;
    event.place_m = place_m_;
    event.time_s = block_.time[lane_];
    event.wheel = wheel;
    ride_.trace->events.push_back(event);
}

// The wheel rolls on as the stop has left it.
void LoneRider::mend(int wheel, const Stop& stop) {
    SlowLeak& leak = kit_.leaks[static_cast<std::size_t>(wheel)];
    if (stop.means == Means::kTopUp) {
        leak.topped_up = true;
        leak.topped_up_s = block_.time[lane_];
    } else {
        leak = {};
        fit_inner(wheel, stop.means);
    }
    refresh(Pressure::kToo);  // the other wheel has leaked until now
    const sampling::RollingWheel& rolling = kit_.wheels[static_cast<std::size_t>(wheel)];
    set_wheel_leak(*ride_.model, rolling.inner, wheel, *ride_.days,
                   LaneRange{lane_, lane_ + 1}, terms_);
    refill(wheel, stop);
    refresh(Pressure::kToo);
}

// A spare brings its own rolling, and no fitting fault of the old tube's; a car brings a
// wheel like the one that went flat.
void LoneRider::fit_inner(int wheel, Means means) {
    sampling::RollingWheel& rolling = kit_.wheels[static_cast<std::size_t>(wheel)];
    const scenario::Setup& flats = *ride_.traits.flats;
    if (means == Means::kCar) {
        rolling.inner = flats.wheels[static_cast<std::size_t>(wheel)].inner;
    } else if (means == Means::kTube || means == Means::kOfficials) {
        if (flats.kit.spare_inner >= 0) rolling.inner = flats.kit.spare_inner;
    } else {
        return;  // the same inner, closed
    }
    rolling.fitting_ratio = 0.0;
    set_wheel_rolling(*ride_.model, *ride_.traits.rolling, wheel, rolling.inner,
                      *ride_.days, LaneRange{lane_, lane_ + 1}, terms_);
}

// Where rolling is another setup's, pressures are told from its own (see find_moment).
void LoneRider::refill(int wheel, const Stop& stop) {
    const auto w = static_cast<std::size_t>(wheel);
    Filling filling;
    filling.temperature_k = find_temperature_k();
    filling.carbon_dioxide_pa = stop.carbon_dioxide_pa;
    filling.gauge_pa = stop.gauge_pa - ride_.traits.flats->wheels[w].gauge_pa +
                       ride_.traits.rolling->wheels[w].gauge_pa;
    fill_wheel(*ride_.refresh, filling, wheel, lane_, terms_);
}

}  // namespace flattail::ride
