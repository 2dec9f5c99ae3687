// Nails that a setup would meet if it stayed as it starts: a count whose expectation is
// known on every day.
#pragma once

#include <array>
#include <cstdint>

#include "sampling/day_block.h"
#include "sampling/road_hazard.h"
#include "sampling/vector_math.h"
#include "scenario/model.h"

namespace flattail::outcome {

/// Counts the day's points below the hazard that a setup has at the start, on a dry road,
/// and leaves out those that sealant closes. The count goes with the setup's flats nearly
/// one to one, and what is to be expected of it follows from the day's inputs alone.
/// Source: METHOD 10.31
class NominalFlats {
  public:
    /// `seed` is that of the repairs' draws. Everything must outlive this.
    NominalFlats(const scenario::Model& model, const sampling::RoadHazard& road,
                 std::uint64_t seed, const sampling::VectorMath& math);

    /// Takes up a block; the others look at it.
    void look_at(const sampling::DayBlock& days);

    /// weight x count - expectation, zero on average over days.
    /// Shapes: surplus[lane]
    void find_surplus(int setup, double* surplus);

  private:
    using Lanes = std::array<double, sampling::kLanes>;

    void find_cut_ratio(const scenario::Wheel& wheel, double* ratio) const;
    void find_pinch_ratio(const scenario::Setup& setup, int wheel, double* ratio) const;
    void find_fitting_ratio(const scenario::Wheel& wheel, double* ratio) const;
    double find_staying_open(const scenario::Wheel& wheel, sampling::FlatCause cause,
                             int lane) const;

    const scenario::Model* model_;
    const sampling::RoadHazard* road_;
    std::uint64_t seed_;
    const sampling::VectorMath* math_;
    const sampling::DayBlock* days_ = nullptr;
    std::array<std::array<Lanes, sampling::kCauses>, sampling::kWheels> mean_{};
    std::array<std::array<Lanes, sampling::kCauses>, sampling::kWheels> ratio_{};
};

}  // namespace flattail::outcome
