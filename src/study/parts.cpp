#include "study/parts.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <vector>

#include "findings/sample/means.h"

namespace flattail::study {

namespace {

using sampling::kLanes;

// Rolling, mass, flats; a mixture is a set of bits: set where the trait is the setup's.
constexpr unsigned kTraits = 3;
constexpr unsigned kMixtures = 1U << kTraits;
// Days ridden per mixture. 4,096 give a rolling part to a few hundredths of a second; the
// flats part is tied to the full study.
constexpr std::size_t kPartDays = 4096;

const double kThirds[kTraits] = {1.0 / 3.0, 1.0 / 6.0,
                                 1.0 / 3.0};  // |S|! (2 - |S|)! / 3!

struct MixedTimes {
    std::array<std::vector<double>, kMixtures> judged_s;
};

ride::Traits mix(const scenario::Model& model, unsigned mixture, int setup, int against) {
    const auto pick = [&](unsigned bit) {
        const int s = (mixture >> bit & 1U) != 0 ? setup : against;
        return &model.setups[static_cast<std::size_t>(s)];
    };
    return {pick(0), pick(1), pick(2)};
}

// Mixtures that are no setup of their own: all but none and all traits exchanged.
MixedTimes ride_mixtures(const Prepared& prepared, const findings::StudySample& sample,
                         const BlockExecutor& run, int setup) {
    const scenario::Model& model = *prepared.model;
    const int against = model.decision.against;
    const std::size_t days = std::min(kPartDays, sample.days() / kLanes * kLanes);
    MixedTimes times;
    for (auto& row : times.judged_s) row.resize(days);
    for (std::size_t d = 0; d < days; ++d) {
        times.judged_s[0][d] = sample.judged_s[static_cast<std::size_t>(against)][d];
        times.judged_s[kMixtures - 1][d] =
            sample.judged_s[static_cast<std::size_t>(setup)][d];
    }
    run(days / kLanes, [&](std::size_t begin, std::size_t end) {
        ride::BlockRider rider(prepared.ride_plan());
        sampling::DayBlock block = prepared.days->make_block();
        std::array<ride::RideResult, kLanes> results;
        for (std::size_t b = begin; b < end; ++b) {
            prepared.days->fill(b * kLanes, block);
            for (unsigned m = 1; m + 1 < kMixtures; ++m) {
                rider.ride(block, mix(model, m, setup, against), ride::Solver::kFast,
                           results);
                for (std::size_t j = 0; j < kLanes; ++j) {
                    const bool counts = results[j].ending == ride::Ending::kFinished;
                    times.judged_s[m][b * kLanes + j] =
                        counts ? results[j].time_s : sample.judged_no_finish_s;
                }
            }
        }
    });
    return times;
}

// A trait's part on one day: its effect averaged over what else has been exchanged before
// it.
double compute_part(const MixedTimes& times, unsigned trait, std::size_t day) {
    double part = 0.0;
    for (unsigned m = 0; m < kMixtures; ++m) {
        if ((m >> trait & 1U) != 0) continue;
        const unsigned with = m | 1U << trait;
        part += kThirds[std::popcount(m)] *
                (times.judged_s[with][day] - times.judged_s[m][day]);
    }
    return part;
}

findings::Estimate estimate_part(const MixedTimes& times, unsigned trait,
                                 const findings::Design& design) {
    std::vector<double> parts(times.judged_s[0].size());
    for (std::size_t d = 0; d < parts.size(); ++d)
        parts[d] = compute_part(times, trait, d);
    const findings::Design part_design{
        design.weight.first(parts.size()),
        design.stratum.empty() ? design.stratum : design.stratum.first(parts.size())};
    return findings::estimate_mean(parts, part_design);
}

}  // namespace

void add_parts(const Prepared& prepared, const findings::StudySample& sample,
               const BlockExecutor& run, PairFindings& pair) {
    if (sample.days() < kLanes) return;
    const MixedTimes times = ride_mixtures(prepared, sample, run, pair.setup);
    const findings::Estimate rolling = estimate_part(times, 0, sample.design);
    const findings::Estimate mass = estimate_part(times, 1, sample.design);
    pair.rolling_s = {rolling.value, rolling.standard_error};
    pair.mass_s = {mass.value, mass.standard_error};
    const double flats = pair.mean_s.value - rolling.value - mass.value;
    pair.flats_s = {flats,
                    std::hypot(pair.mean_s.standard_error, rolling.standard_error)};
    pair.parts_known = true;
}

}  // namespace flattail::study
