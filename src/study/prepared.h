// Everything a study makes once, before the first day.
#pragma once

#include <memory>
#include <vector>

#include "flattail/study.h"
#include "ride/block_ride.h"
#include "sampling/day_plan.h"

namespace flattail::study {

struct Prepared {
    const scenario::Model* model = nullptr;
    std::uint64_t seed = 0;
    const ride::Kernel* kernel = nullptr;
    // Held by pointer: parts of the plan look at them.
    std::unique_ptr<ride::Road> road;
    std::unique_ptr<sampling::RoadHazard> hazard;
    std::unique_ptr<sampling::DayPlan> days;
    std::vector<ride::GuessTerms> guesses;

    ride::RidePlan ride_plan() const {
        return {model, road.get(), &guesses, kernel, seed};
    }
};

/// Splits the road, lays out the days and fits the start guess. The model must outlive
/// it.
Prepared prepare(const scenario::Model& model, const StudyOptions& options);

}  // namespace flattail::study
