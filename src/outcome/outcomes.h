// One fixed slot per setup and day: what a study keeps of its rides.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "ride/ride_result.h"
#include "sampling/day_block.h"

namespace flattail::outcome {

/// Small counts of one ride in four bytes. Counts by wheel and cause, and those at speed,
/// stop at 3: more of one kind in one race are not told apart.
struct Tally {
    ride::Ending ending = ride::Ending::kFinished;
    std::uint8_t flats = 0;
    std::uint16_t counts = 0;  // two bits each: wheel x cause, at speed, front at speed

    int count(int wheel, int cause) const {
        return read(wheel * sampling::kCauses + cause);
    }
    int front_flats() const { return count(0, 0) + count(0, 1) + count(0, 2); }
    int at_speed() const { return read(kAtSpeed); }
    int front_at_speed() const { return read(kAtSpeed + 1); }

    /// Sets the counts; the others are set by hand.
    void pack(const ride::RideResult& result);

  private:
    static constexpr int kAtSpeed = sampling::kWheels * sampling::kCauses;
    int read(int place) const { return counts >> (2 * place) & 3; }
};

/// Finish times, losses and endings of every setup on every day, and what each day
/// counts.
/// Shapes: times [setup][day]. 24 bytes per ride and 9 per day kept; what summarises them
/// needs several times that for a while.
class Outcomes {
  public:
    Outcomes(std::size_t setups, std::size_t days);

    /// Stores a ride; slots are disjoint, so threads may store at once.
    void store(std::size_t setup, std::size_t day, const ride::RideResult& result);
    /// What is known to be zero on average over days: the day's ends less their chances,
    /// and its surplus of nails (nominal_flats.h).
    void store_controls(std::size_t setup, std::size_t day,
                        const ride::RideResult& result, double nails);
    void store_day(std::size_t day, double weight, sampling::DayGroup group);
    /// Drops every day from `days` on: a study that was stopped.
    void keep_first(std::size_t days);

    std::size_t setups() const { return setups_; }
    std::size_t days() const { return weight_.size(); }
    /// Riding time, whether or not the day counts as finished.
    std::span<const double> times(std::size_t setup) const { return times_[setup]; }
    std::span<const float> lost(std::size_t setup) const { return lost_[setup]; }
    std::span<const Tally> tallies(std::size_t setup) const { return tallies_[setup]; }
    /// 1 where the flats ended the day, else 0, less the chances of its stops to do so.
    std::span<const float> surprises(std::size_t setup) const {
        return surprises_[setup];
    }
    /// Already times the day's weight.
    std::span<const float> nails(std::size_t setup) const { return nails_[setup]; }
    std::span<const double> weights() const { return weight_; }
    /// Group of each day as a small number; empty when all days were drawn plainly.
    std::span<const std::uint8_t> groups() const { return group_; }

  private:
    std::size_t setups_;
    std::vector<std::vector<double>> times_;
    std::vector<std::vector<float>> lost_;
    std::vector<std::vector<Tally>> tallies_;
    std::vector<std::vector<float>> surprises_;
    std::vector<std::vector<float>> nails_;
    std::vector<double> weight_;
    std::vector<std::uint8_t> group_;
};

}  // namespace flattail::outcome
