#include "ride/lone_rider.h"

#include <algorithm>
#include <cmath>

#include "ride/lone_step.h"

namespace flattail::ride {

namespace {

// Easing off to a stop on a flat tyre, without the hard braking that would throw a rider
// (assumption). Costs speed / 2 a; 2 m/s2 would make every flat 1 s cheaper.
constexpr double kStoppingMS2 = 1.5;
// A stop this near to a point or a node counts as reaching it, m.
constexpr double kTouchM = 1e-6;

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
    sampling::WheelMoment moment;
    moment.gauge_pa = find_gauge_pa(point.wheel);
    moment.wet = terms_.wet[lane_];
    moment.load_n = sampling::compute_wheel_load_n(*ride_.model, *ride_.days, lane_,
                                                   *ride_.traits.flats, point.wheel);
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
    refresh(ride_.road->is_pressure_mark(mark) ? Pressure::kToo : Pressure::kAsItWas);
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
    if (pressure != Pressure::kAsItWas) {
        // A tyre with a hole is looked at again a segment later.
        terms_.half_way_s[lane_] = is_leaking() ? 0.0 : ride_.road->half_way_s(segment_);
        const auto follow = pressure == Pressure::kToo ? ride_.kernel->refresh_pressure
                                                       : ride_.kernel->refresh_rolling;
        follow(*ride_.refresh, terms_, block_, one);
    }
    ride_.kernel->refresh(*ride_.refresh, place, terms_, block_, one);
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
