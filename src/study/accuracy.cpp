#include "study/accuracy.h"

#include <algorithm>
#include <cmath>

namespace flattail::study {

namespace {

constexpr std::size_t kOneBlockIn = 1000;
using sampling::kLanes;

// Rides of one block and setup whose ending and flats agree; a flat that one ride just
// meets and the other just misses is not a matter of accuracy.
void compare_block(const std::array<ride::RideResult, kLanes>& exact, std::size_t first,
                   std::size_t setup, const outcome::Outcomes& outcomes,
                   AccuracyCheck& check) {
    const std::size_t lanes = std::min<std::size_t>(kLanes, outcomes.days() - first);
    for (std::size_t j = 0; j < lanes; ++j) {
        if (exact[j].ending != ride::Ending::kFinished) continue;
        if (exact[j].flats != outcomes.tallies(setup)[first + j].flats) continue;
        const double ratio =
            std::abs(outcomes.times(setup)[first + j] / exact[j].time_s - 1.0);
        check.worst_ratio = std::max(check.worst_ratio, ratio);
        check.rides_checked += 1;
    }
}

}  // namespace

AccuracyCheck check_accuracy(const Prepared& prepared, const outcome::Outcomes& outcomes,
                             const ride::SettleCount& settled) {
    AccuracyCheck check;
    check.settled_share =
        static_cast<double>(settled.settled_block_segments) /
        static_cast<double>(std::max<std::int64_t>(settled.block_segments, 1));
    check.not_solved = settled.not_solved;
    ride::BlockRider rider(prepared.ride_plan());
    sampling::DayBlock days = prepared.days->make_block();
    std::array<ride::RideResult, kLanes> exact;
    const std::size_t blocks = outcomes.days() / kLanes;
    for (std::size_t block = 0; block < std::max<std::size_t>(blocks, 1);
         block += kOneBlockIn) {
        prepared.days->fill(block * kLanes, days);
        for (std::size_t s = 0; s < outcomes.setups(); ++s) {
            rider.ride(days, static_cast<int>(s), ride::Solver::kConverged, exact);
            compare_block(exact, block * kLanes, s, outcomes, check);
        }
    }
    return check;
}

}  // namespace flattail::study
