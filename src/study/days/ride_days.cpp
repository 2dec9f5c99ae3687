#include "study/days/ride_days.h"

#include <array>
#include <atomic>

#include "base/expects.h"

namespace flattail::study {

namespace {

using sampling::kLanes;

void ride_block(const sampling::DayBlock& days, std::size_t first,
                ride::BlockRider& rider, outcome::Outcomes& outcomes) {
    std::array<ride::RideResult, kLanes> results;
    for (std::size_t j = 0; j < kLanes; ++j) {
        outcomes.store_day(first + j, days.weight[j], days.group[j]);
    }
    for (std::size_t s = 0; s < outcomes.setups(); ++s) {
        rider.ride(days, static_cast<int>(s), ride::Solver::kFast, results);
        for (std::size_t j = 0; j < kLanes; ++j) {
            outcomes.store(s, first + j, results[j]);
        }
    }
}

}  // namespace

outcome::Outcomes ride_days(const Prepared& prepared, std::size_t days,
                            const BlockExecutor& run) {
    FLATTAIL_EXPECTS(days > 0 && days % kLanes == 0);
    outcome::Outcomes outcomes(prepared.model->setups.size(), days);
    std::atomic<std::int64_t> not_solved{0};
    run(days / kLanes, [&](std::size_t begin, std::size_t end) {
        ride::BlockRider rider(prepared.ride_plan());
        sampling::DayBlock block = prepared.days->make_block();
        for (std::size_t b = begin; b < end; ++b) {
            prepared.days->fill(b * kLanes, block);
            ride_block(block, b * kLanes, rider, outcomes);
        }
        not_solved += rider.settled().not_solved;
    });
    if (not_solved > 0) {
        throw OurMistake(
            "a ride was not solved; please report the scenario that did this");
    }
    return outcomes;
}

}  // namespace flattail::study
