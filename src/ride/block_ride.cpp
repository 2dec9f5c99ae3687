#include "ride/block_ride.h"

#include <algorithm>

#include "ride/setup_lanes.h"
#include "ride/wheel_gas.h"

namespace flattail::ride {

namespace {

constexpr int kNever = 1 << 30;

}  // namespace

BlockRider::BlockRider(const RidePlan& plan) : plan_(plan), refresh_(plan.road->refresh) {
    refresh_.forecast = &plan.road->forecast;
}

int BlockRider::find_segment_of(double place_m) const {
    const auto& segments = plan_.road->segments;
    const auto after =
        std::upper_bound(segments.begin(), segments.end(), place_m,
                         [](double place, const auto& s) { return place < s.from_m; });
    return std::max(static_cast<int>(after - segments.begin()) - 1, 0);
}

void BlockRider::find_first_points(const sampling::DayBlock& days) {
    points_.fill({});
    next_point_.fill(0);
    next_segment_.fill(kNever);
    const std::span<const sampling::FlatPoint> all{days.points};
    for (std::size_t i = 0; i < all.size();) {
        const std::uint8_t lane = all[i].lane;
        std::size_t end = i;
        while (end < all.size() && all[end].lane == lane) ++end;
        points_[lane] = all.subspan(i, end - i);
        next_segment_[lane] = find_segment_of(all[i].place_m);
        i = end;
    }
}

void BlockRider::refresh_mark(std::size_t mark, const sampling::DayBlock& days) {
    const PlaceFactors place{days.power_factor.data() + mark * kLanes,
                             days.wind_factor.data() + mark * kLanes,
                             plan_.road->yaw_at(mark)};
    if (plan_.road->is_pressure_mark(static_cast<int>(mark))) {
        std::fill_n(terms_.half_way_s, kLanes,
                    plan_.road->half_way_s(plan_.road->mark_segment[mark]));
        plan_.kernel->refresh_pressure(refresh_, terms_, block_, LaneRange{});
    }
    plan_.kernel->refresh(refresh_, place, terms_, block_, LaneRange{});
}

// Already at the speed that the first metres allow.
void BlockRider::start_rolling() {
    SegmentTerms steady = plan_.road->terms.front();
    steady.inv_length = 0.0;
    double root[kLanes];
    plan_.kernel->find_roots(steady, block_, root);
    for (int j = 0; j < kLanes; ++j) {
        const double cap =
            std::min(steady.cap_m_s * block_.cap_ratio[j], steady.limit_m_s);
        block_.speed[j] = std::min(root[j], cap);
    }
}

void BlockRider::start(const sampling::DayBlock& days, Solver) {
    refresh_mark(0, days);
    segment_ = 0;
    next_gate_ = 0;
    if (plan_.model->race.start == scenario::StartKind::kRolling) {
        start_rolling();
        return;
    }
    plan_.kernel->launch(plan_.road->terms.front(), plan_.model->rider.launch_force_n,
                         terms_, block_);
    segment_ = 1;
}

void BlockRider::run_to(int segment, Solver solver) {
    const int count = segment - segment_;
    if (count <= 0) return;
    const SegmentTerms* terms = plan_.road->terms.data() + segment_;
    switch (solver) {
        case Solver::kFast:
            plan_.kernel->ride_fast(terms, plan_.guesses->data() + segment_, count,
                                    block_, settled_);
            break;
        case Solver::kSimple:
            plan_.kernel->ride_simple(terms, count, block_, settled_);
            break;
        case Solver::kConverged:
            plan_.kernel->ride_converged(terms, count, block_, settled_);
            break;
    }
    segment_ = segment;
}

bool BlockRider::is_away(int lane) const {
    return std::any_of(away_.begin(), away_.end(),
                       [lane](const Away& away) { return away.lane == lane; });
}

// Segment by segment: each step of the kernel is on its own, so the bits stay.
void BlockRider::run_traced(int segment, Solver solver, const LoneRide& lone,
                            const std::array<RideResult, kLanes>& results) {
    const auto lane = static_cast<std::size_t>(traced_lane_);
    const bool here = !is_away(traced_lane_) && results[lane].ending == Ending::kFinished;
    while (segment_ < segment) {
        const int ridden = segment_;
        run_to(segment_ + 1, solver);
        if (!here) continue;
        const auto& s = plan_.road->segments[static_cast<std::size_t>(ridden)];
        add_trace_point(lone, ridden, s.from_m + s.length_m, traced_lane_, terms_,
                        block_);
    }
}

RideResult BlockRider::trace(const sampling::DayBlock& days, int setup, int lane,
                             RideTrace& trace) {
    trace_ = &trace;
    traced_lane_ = lane;
    std::array<RideResult, kLanes> results;
    ride(days, setup, Solver::kFast, results);
    trace_ = nullptr;
    trace.start_clock_s = terms_.start_clock_s[lane];
    return results[static_cast<std::size_t>(lane)];
}

int BlockRider::find_event_segment() const {
    int next = *std::min_element(next_segment_.begin(), next_segment_.end());
    for (const Away& away : away_) next = std::min(next, away.segment);
    return next;
}

void BlockRider::bring_back(int segment) {
    std::erase_if(away_, [&](const Away& away) {
        if (away.segment != segment) return false;
        put_lane(away.state, away.lane, terms_, block_);
        return true;
    });
}

int BlockRider::find_gate_segment() const {
    const auto& gates = plan_.road->gates;
    return next_gate_ < gates.size() ? gates[next_gate_].segment : kNever;
}

// Ends the day of every lane that comes to a gate too late; lanes on their own see to it
// themselves, but for the finish. The block rides on: what the ride would have taken.
void BlockRider::close_gates(int segment, std::array<RideResult, kLanes>& results) {
    std::array<bool, kLanes> is_away{};
    for (const Away& away : away_) is_away[static_cast<std::size_t>(away.lane)] = true;
    for (; find_gate_segment() == segment; ++next_gate_) {
        const Gate& gate = plan_.road->gates[next_gate_];
        for (std::size_t j = 0; j < kLanes; ++j) {
            if (is_away[j] || results[j].ending != Ending::kFinished) continue;
            if (!gate.is_late(block_.time[j], terms_.start_clock_s[j])) continue;
            results[j].ending = end_at_cutoff(next_gate_);
            next_segment_[j] = kNever;
        }
    }
}

// Pressure and wetness change at marks only, so what misses the lane at the start of a
// segment misses it throughout.
bool BlockRider::skip_misses(int segment, int lane, const LoneRider& rider) {
    const auto j = static_cast<std::size_t>(lane);
    while (next_point_[j] < points_[j].size()) {
        const sampling::FlatPoint& point = points_[j][next_point_[j]];
        next_segment_[j] = std::max(find_segment_of(point.place_m), segment);
        if (next_segment_[j] > segment) return false;
        if (rider.is_hit(point)) return true;
        ++next_point_[j];
    }
    next_segment_[j] = kNever;
    return false;
}

void BlockRider::send_away(int segment, const LoneRide& lone,
                           std::array<RideResult, kLanes>& results) {
    for (int j = 0; j < kLanes; ++j) {
        const auto lane = static_cast<std::size_t>(j);
        if (next_segment_[lane] > segment) continue;
        LoneRider rider(lone, j, points_[lane], terms_, block_, kits_[lane],
                        results[lane]);
        if (!skip_misses(segment, j, rider)) continue;
        const LaneState before = take_lane(terms_, block_, j);
        const int back = rider.ride_from(segment, next_point_[lane]);
        const bool more = next_point_[lane] < points_[lane].size() &&
                          results[lane].ending == Ending::kFinished;
        next_segment_[lane] =
            more ? std::max(find_segment_of(points_[lane][next_point_[lane]].place_m),
                            back)
                 : kNever;
        // Who has given up does not come back: the block goes on as if nothing had
        // happened.
        if (results[lane].ending == Ending::kFinished) {
            away_.push_back({back, j, take_lane(terms_, block_, j)});
        }
        // The block rides the lane's old state on meanwhile; what comes of it is thrown
        // away.
        put_lane(before, j, terms_, block_);
    }
}

void BlockRider::ride(const sampling::DayBlock& days, int setup, Solver solver,
                      std::array<RideResult, kLanes>& results) {
    const scenario::Setup* one = &plan_.model->setups[static_cast<std::size_t>(setup)];
    ride(days, Traits::of(*one), solver, results);
}

void BlockRider::ride(const sampling::DayBlock& days, const Traits& traits, Solver solver,
                      std::array<RideResult, kLanes>& results) {
    set_lanes(*plan_.model, *plan_.road, traits, days, terms_, block_);
    results.fill(RideResult{});
    kits_.fill(pack_kit(*traits.flats));
    away_.clear();
    find_first_points(days);
    const LoneRide lone{
        plan_.model, plan_.road,
        &refresh_,   traits,
        &days,       plan_.kernel,
        plan_.seed,  plan_.model->stop_cost == scenario::StopCost::kCounted,
        trace_,      traced_lane_};
    wait_for_start(*plan_.model, *plan_.road, *plan_.kernel, terms_);
    start(days, solver);
    const int count = plan_.road->count();
    std::size_t mark = 1;
    while (true) {
        const int mark_segment = mark < plan_.road->mark_segment.size()
                                     ? plan_.road->mark_segment[mark]
                                     : count;
        const int event = std::max(find_event_segment(), segment_);
        const int stop = std::min({mark_segment, event, find_gate_segment(), count});
        if (trace_ == nullptr) {
            run_to(stop, solver);
        } else {
            run_traced(stop, solver, lone, results);
        }
        if (stop == mark_segment && mark < plan_.road->mark_segment.size()) {
            refresh_mark(mark++, days);
        }
        bring_back(stop);
        close_gates(stop, results);
        if (stop >= count) break;
        if (event == stop) send_away(stop, lone, results);
    }
    for (int j = 0; j < kLanes; ++j) {
        results[static_cast<std::size_t>(j)].time_s = block_.time[j];
    }
}

}  // namespace flattail::ride
