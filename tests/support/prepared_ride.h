// A road, days and a fitted guess for one model: what a ride needs, without a study.
#pragma once

#include <memory>
#include <vector>

#include "base/instruction_set.h"
#include "ride/block_ride.h"
#include "sampling/day_plan.h"

namespace flattail::support {

struct PreparedRide {
    const scenario::Model* model = nullptr;
    const ride::Kernel* kernel = nullptr;
    std::unique_ptr<ride::Road> road;
    std::unique_ptr<sampling::RoadHazard> hazard;
    std::unique_ptr<sampling::DayPlan> days;
    std::vector<ride::GuessTerms> guesses;

    ride::RidePlan plan() const { return {model, road.get(), &guesses, kernel, 1}; }
};

/// The model must outlive what comes back. Seed 1, plain days.
PreparedRide prepare_ride(const scenario::Model& model,
                          base::InstructionSet set = base::detect_instruction_set());

using Results = std::array<ride::RideResult, ride::kLanes>;

/// One setup on the 64 days from `first_day` on.
Results ride_block(const scenario::Model& model, int setup, ride::Solver solver,
                   base::InstructionSet set = base::detect_instruction_set(),
                   std::uint64_t first_day = 0);

}  // namespace flattail::support
