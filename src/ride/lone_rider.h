// One lane away from its block: from the segment where something sharp waits until the
// rider is back at speed. The only part of the ride that is not vectorised; most days
// never need it.
#pragma once

#include <span>

#include "ride/kernel/kernel.h"
#include "ride/lane_state.h"
#include "ride/ride_result.h"
#include "ride/road.h"
#include "ride/roadside/repair.h"
#include "ride/setup_lanes.h"
#include "ride/trace.h"

namespace flattail::ride {

/// What a lone ride reads, the same for every lane of a block.
struct LoneRide {
    const scenario::Model* model = nullptr;
    const Road* road = nullptr;
    const RefreshTerms* refresh = nullptr;
    Traits traits;
    const sampling::DayBlock* days = nullptr;
    const Kernel* kernel = nullptr;
    std::uint64_t seed = 0;
    bool stops_cost = true;
    RideTrace* trace = nullptr;  // written for this lane only
    int traced_lane = -1;
};

/// Writes down where a lane is at the end of a segment.
void add_trace_point(const LoneRide& ride, int segment, double place_m, int lane,
                     const LaneTerms& terms, const LaneBlock& block);

/// After this distance from a stop the block's ordinary step is accurate again (METHOD
/// 8.4).
constexpr double kBackAtSpeedM = 100.0;

class LoneRider {
  public:
    /// `points`: what waits for this lane, by place.
    LoneRider(const LoneRide& ride, int lane, std::span<const sampling::FlatPoint> points,
              LaneTerms& terms, LaneBlock& block, LaneKit& kit, RideResult& result);

    /// Rides from the start of `segment`, with the lane's state at its entry, until a
    /// segment ends after which nothing is left to do alone. Returns the next segment, or
    /// the number of segments when the lane has finished or given up. `next_point` moves
    /// past what was met.
    int ride_from(int segment, std::size_t& next_point);

    /// True when the wheel, as it is now, suffers the point.
    bool is_hit(const sampling::FlatPoint& point) const;

  private:
    void meet(const sampling::FlatPoint& point);
    enum class Loss { kSudden, kSlow };
    void go_flat(const sampling::FlatPoint& point, Loss loss);
    void seal(const sampling::FlatPoint& point);
    void start_leak(const sampling::FlatPoint& point, double hole_m);
    void follow_leaks();
    void follow_leak(int wheel, double time_s);
    bool is_leaking() const;
    double find_gauge_pa(int wheel) const;
    double find_temperature_k() const;
    void mend(int wheel, const Stop& stop);
    void fit_inner(int wheel, Means means);
    void refill(int wheel, const Stop& stop);
    void log(TraceEvent event, int wheel) const;
    enum class Pressure { kToo, kLetOut, kAsItWas };
    void refresh(Pressure pressure);
    bool brake_to_stop();
    void count_flat(const sampling::FlatPoint& point, Loss loss);
    void count_launch();
    void ride_to(double place_m);
    void advance_segment();
    void meet_gates();
    double find_next_stop(double end_m, std::span<const sampling::FlatPoint> left) const;
    bool is_under_way() const { return !launching_ || since_stop_m_ >= kBackAtSpeedM; }
    bool has_ended() const { return result_.ending != Ending::kFinished; }
    double segment_end_m() const;

    const LoneRide& ride_;
    int lane_;
    std::span<const sampling::FlatPoint> points_;
    LaneTerms& terms_;
    LaneBlock& block_;
    LaneKit& kit_;
    RideResult& result_;
    int segment_ = 0;
    double place_m_ = 0.0;
    bool launching_ = false;     // between a stop and being back at speed
    double since_stop_m_ = 0.0;  // ridden since the last stop
    double restart_s_ = 0.0;     // clock when the rider got going again
    double speed_before_m_s_ = 0.0;
    double leaks_until_s_ = 0.0;  // clock up to which slow leaks have been followed
};

}  // namespace flattail::ride
