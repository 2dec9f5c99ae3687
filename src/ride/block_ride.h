// One setup through 64 race days.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "ride/guess_fit.h"
#include "ride/kernel/kernel.h"
#include "ride/lane_state.h"
#include "ride/lone_rider.h"
#include "ride/ride_result.h"
#include "ride/road.h"

namespace flattail::ride {

/// Fast: one fitted guess and one step per segment. Simple: no fit. Converged: every root
/// to 1e-9 m/s, about ten times the work; the accuracy check.
enum class Solver { kFast, kSimple, kConverged };

/// What every ride of a study shares.
struct RidePlan {
    const scenario::Model* model = nullptr;
    const Road* road = nullptr;
    const std::vector<GuessTerms>* guesses = nullptr;
    const Kernel* kernel = nullptr;
    std::uint64_t seed = 0;
};

/// Rides blocks of days. Holds the work space of one thread; makes no allocation while
/// riding unless a day has flats.
class BlockRider {
  public:
    explicit BlockRider(const RidePlan& plan);

    /// Results of one setup on the days of a block.
    /// Accuracy: a lane's result depends on no other lane; same bits on any instruction
    ///           set
    void ride(const sampling::DayBlock& days, int setup, Solver solver,
              std::array<RideResult, kLanes>& results);

    /// The same with the traits of several setups.
    void ride(const sampling::DayBlock& days, const Traits& traits, Solver solver,
              std::array<RideResult, kLanes>& results);

    /// The ride of one lane, written down; its result is that of the whole block's ride
    /// to the bit.
    RideResult trace(const sampling::DayBlock& days, int setup, int lane,
                     RideTrace& trace);

    const SettleCount& settled() const { return settled_; }

  private:
    // A lane that waits for its block: where it comes back, and with what.
    struct Away {
        int segment = 0;
        int lane = 0;
        LaneState state;
    };

    void start(const sampling::DayBlock& days, Solver solver);
    void start_rolling();
    void run_to(int segment, Solver solver);
    void run_traced(int segment, Solver solver, const LoneRide& lone,
                    const std::array<RideResult, kLanes>& results);
    bool is_away(int lane) const;
    void refresh_mark(std::size_t mark, const sampling::DayBlock& days);
    void send_away(int segment, const LoneRide& lone,
                   std::array<RideResult, kLanes>& results);
    bool skip_misses(int segment, int lane, const LoneRider& rider);
    void bring_back(int segment);
    int find_gate_segment() const;
    void close_gates(int segment, std::array<RideResult, kLanes>& results);
    int find_event_segment() const;
    void find_first_points(const sampling::DayBlock& days);
    int find_segment_of(double place_m) const;

    RidePlan plan_;
    RefreshTerms refresh_;
    LaneTerms terms_;
    LaneBlock block_;
    SettleCount settled_;
    int segment_ = 0;
    std::size_t next_gate_ = 0;
    std::array<LaneKit, kLanes> kits_;
    std::array<std::span<const sampling::FlatPoint>, kLanes> points_;
    std::array<std::size_t, kLanes> next_point_;
    std::array<int, kLanes> next_segment_;  // where the lane's next point lies
    std::vector<Away> away_;
    RideTrace* trace_ = nullptr;  // while one lane is written down
    int traced_lane_ = -1;
};

}  // namespace flattail::ride
