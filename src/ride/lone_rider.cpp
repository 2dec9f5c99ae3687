#include "ride/lone_rider.h"

#include <algorithm>
#include <cmath>

#include "physics/cartridge.h"
#include "physics/outflow.h"
#include "ride/lone_step.h"
#include "ride/wheel_gas.h"

namespace flattail::ride {

namespace {

// Easing off to a stop on a flat tyre, without the hard braking that would throw a rider
// (assumption). Costs speed / 2 a; 2 m/s2 would make every flat 1 s cheaper.
constexpr double kStoppingMS2 = 1.5;
// A stop this near to a point or a node counts as reaching it, m.
constexpr double kTouchM = 1e-6;

// The wheel as its own setup has it: where rolling is another setup's, so is its
// pressure.
sampling::WheelMoment find_moment(const LoneRide& ride, const LaneTerms& terms, int wheel,
                                  int lane) {
    const auto w = static_cast<std::size_t>(wheel);
    const scenario::Setup& flats = *ride.traits.flats;
    sampling::WheelMoment moment;
    moment.gauge_pa = terms.gauge_pa[wheel][lane] + flats.wheels[w].gauge_pa -
                      ride.traits.rolling->wheels[w].gauge_pa;
    moment.wet = terms.wet[lane];
    moment.load_n =
        sampling::compute_wheel_load_n(*ride.model, *ride.days, lane, flats, wheel);
    return moment;
}

// The last mark at or before a segment.
int find_mark(const Road& road, int segment) {
    const auto after =
        std::upper_bound(road.mark_segment.begin(), road.mark_segment.end(), segment);
    return static_cast<int>(after - road.mark_segment.begin()) - 1;
}

double course_end_m(const Road& road) {
    return road.segments.back().from_m + road.segments.back().length_m;
}

}  // namespace

LoneRider::LoneRider(const LoneRide& ride, int lane,
                     std::span<const sampling::FlatPoint> points, LaneTerms& terms,
                     LaneBlock& block, LaneKit& kit, RideResult& result)
    : ride_(ride),
      lane_(lane),
      points_(points),
      terms_(terms),
      block_(block),
      kit_(kit),
      result_(result) {}

double LoneRider::segment_end_m() const {
    const course::Segment& s = ride_.road->segments[static_cast<std::size_t>(segment_)];
    return s.from_m + s.length_m;
}

bool LoneRider::is_hit(const sampling::FlatPoint& point) const {
    const sampling::WheelMoment moment = find_moment(ride_, terms_, point.wheel, lane_);
    return point.height < sampling::compute_hazard_ratio(*ride_.model, *ride_.days, lane_,
                                                         kit_.wheels[point.wheel],
                                                         point.cause, moment);
}

int LoneRider::ride_from(int segment, std::size_t& next_point) {
    segment_ = segment;
    place_m_ = ride_.road->segments[static_cast<std::size_t>(segment)].from_m;
    const int count = ride_.road->count();
    while (segment_ < count) {
        while (next_point < points_.size() &&
               points_[next_point].place_m <= place_m_ + kTouchM) {
            meet(points_[next_point++]);
            if (has_ended()) return count;
        }
        follow_leaks();
        if (has_ended()) return count;
        const double end = segment_end_m();
        ride_to(find_next_stop(end, points_.subspan(next_point)));
        if (place_m_ < end - kTouchM) continue;
        advance_segment();
        if (has_ended()) return count;
        const bool point_ahead = next_point < points_.size() && segment_ < count &&
                                 points_[next_point].place_m <= segment_end_m();
        if (is_under_way() && !point_ahead && !is_leaking()) break;
    }
    count_launch();
    return segment_;
}

// The end of the segment, the next point in it, or the next launch step, whichever is
// nearest.
double LoneRider::find_next_stop(double end_m,
                                 std::span<const sampling::FlatPoint> left) const {
    double stop = end_m;
    if (!left.empty()) stop = std::min(stop, std::max(left.front().place_m, place_m_));
    if (launching_ && since_stop_m_ < kBackAtSpeedM) {
        const double step =
            since_stop_m_ > 0.0 ? since_stop_m_ * (kLaunchGrowth - 1.0) : kPushOffM;
        stop = std::min(stop, place_m_ + step);
    }
    return stop;
}

void LoneRider::ride_to(double place_m) {
    const double length = place_m - place_m_;
    if (length > kTouchM) {
        const bool reaches_end = place_m >= segment_end_m() - kTouchM;
        const SegmentTerms& whole = ride_.road->terms[static_cast<std::size_t>(segment_)];
        const SegmentTerms part = shorten(whole, length, reaches_end);
        if (launching_ && since_stop_m_ <= 0.0) {
            push_off_lane(part, ride_.model->rider.launch_force_n,
                          terms_.inverse_mass[lane_], block_, lane_);
        } else {
            step_lane(part, block_, lane_);
        }
        since_stop_m_ += length;
    }
    place_m_ = place_m;
}

void LoneRider::advance_segment() {
    add_trace_point(ride_, segment_, segment_end_m(), lane_, terms_, block_);
    ++segment_;
    place_m_ = segment_ < ride_.road->count()
                   ? ride_.road->segments[static_cast<std::size_t>(segment_)].from_m
                   : place_m_;
    if (segment_ >= ride_.road->count()) return;
    meet_gates();
    const int mark = find_mark(*ride_.road, segment_);
    if (ride_.road->mark_segment[static_cast<std::size_t>(mark)] != segment_) return;
    refresh(is_pressure_mark(mark) ? Pressure::kToo : Pressure::kAsItWas);
}

// The finish is the block's: it has the ride's whole time.
void LoneRider::meet_gates() {
    const auto& gates = ride_.road->gates;
    for (std::size_t k = 0; k < gates.size() && !has_ended(); ++k) {
        if (gates[k].segment != segment_) continue;
        if (!gates[k].is_late(block_.time[lane_], terms_.start_clock_s[lane_])) continue;
        result_.ending = end_at_cutoff(k);
    }
}

// Brings this lane up to its own clock with the place factors of the last mark.
void LoneRider::refresh(Pressure pressure) {
    const auto mark = static_cast<std::size_t>(find_mark(*ride_.road, segment_));
    const auto row = mark * kLanes;
    const PlaceFactors place{ride_.days->power_factor.data() + row,
                             ride_.days->wind_factor.data() + row,
                             ride_.road->yaw_at(mark)};
    const LaneRange one{lane_, lane_ + 1};
    if (pressure == Pressure::kToo) {
        ride_.kernel->refresh_pressure(*ride_.refresh, terms_, block_, one);
    }
    ride_.kernel->refresh(*ride_.refresh, place, terms_, block_, one);
}

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
    leaks_until_s_ = block_.time[lane_];
    for (int wheel = 0; wheel < kWheelCount; ++wheel) follow_leak(wheel, time_s);
    refresh(Pressure::kToo);
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

// As this setup has it: where rolling is another setup's, so is its pressure.
double LoneRider::find_gauge_pa(int wheel) const {
    return find_moment(ride_, terms_, wheel, lane_).gauge_pa;
}

// Notices, eases off and stops. False when the line comes first: a rider rolls over it.
bool LoneRider::brake_to_stop() {
    const double speed = block_.speed[lane_];
    launching_ = true;
    since_stop_m_ = 0.0;
    // Rolled over this point while stopping for the last one: already standing.
    if (speed <= 0.0) return true;
    const double notice_s = ride_.model->repair.notice_s;
    const double rolled_m = speed * notice_s + speed * speed / (2.0 * kStoppingMS2);
    if (place_m_ + rolled_m >= course_end_m(*ride_.road)) {
        launching_ = false;
        return false;
    }
    const double braking_s = notice_s + speed / kStoppingMS2;
    block_.time[lane_] += braking_s;
    result_.lost_s += static_cast<float>(braking_s - rolled_m / speed);
    const double stopped_m = place_m_ + rolled_m;
    while (stopped_m > segment_end_m()) advance_segment();
    place_m_ = stopped_m;
    block_.speed[lane_] = 0.0;
    speed_before_m_s_ = speed;
    return true;
}

// What getting back to speed has cost, against riding on as before the stop.
void LoneRider::count_launch() {
    if (!launching_) return;
    const double riding_s = block_.time[lane_] - restart_s_;
    result_.lost_s +=
        static_cast<float>(std::max(riding_s - since_stop_m_ / speed_before_m_s_, 0.0));
    launching_ = false;
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

void add_trace_point(const LoneRide& ride, int segment, double place_m, int lane,
                     const LaneTerms& terms, const LaneBlock& block) {
    if (ride.trace == nullptr || ride.traced_lane != lane) return;
    const SegmentTerms& q = ride.road->terms[static_cast<std::size_t>(segment)];
    const double head = block.wind_x[lane] * q.head_x + block.wind_y[lane] * q.head_y;
    const double pace = std::max(q.pace + q.wind_pace * head, 0.0);
    TracePoint point;
    point.place_m = place_m;
    point.time_s = block.time[lane];
    point.speed_m_s = block.speed[lane];
    point.power_w = block.power[lane] * pace / terms.inverse_mass[lane] /
                    ride.model->rider.drivetrain_efficiency;
    point.wind_m_s = std::sqrt(block.wind_sq[lane] * q.shelter_sq);
    point.head_wind_m_s = head;
    for (int w = 0; w < kWheelCount; ++w) point.gauge_pa[w] = terms.gauge_pa[w][lane];
    ride.trace->points.push_back(point);
}

}  // namespace flattail::ride
