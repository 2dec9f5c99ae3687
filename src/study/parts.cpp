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

// A mixture is a set of bits: set where the trait is the setup's.
enum Trait : unsigned { kRolling, kLeak, kMass, kFlats };
constexpr unsigned kTraits = 4;
constexpr unsigned kMixtures = 1U << kTraits;
// Days ridden per mixture. 4,096 give a rolling part to a few hundredths of a second; the
// flats part is tied to the full study.
constexpr std::size_t kPartDays = 4096;

// |S|! (3 - |S|)! / 4! for |S| traits exchanged before.
const double kOrders[kTraits] = {1.0 / 4.0, 1.0 / 12.0, 1.0 / 12.0, 1.0 / 4.0};

struct MixedTimes {
    std::array<std::vector<double>, kMixtures> judged_s;
};

ride::Traits mix(const scenario::Model& model, unsigned mixture, int setup, int against) {
    const auto pick = [&](unsigned bit) {
        const int s = (mixture >> bit & 1U) != 0 ? setup : against;
        return &model.setups[static_cast<std::size_t>(s)];
    };
    return {pick(0), pick(1), pick(2), pick(3)};
}

// Traits that can make a difference; a mixture that differs in no other is ridden once.
unsigned find_differences(const scenario::Setup& a, const scenario::Setup& b) {
    unsigned differ = 1U << kRolling | 1U << kFlats;
    for (std::size_t w = 0; w < a.wheels.size(); ++w) {
        if (a.wheels[w].inner != b.wheels[w].inner) differ |= 1U << kLeak;
    }
    if (a.carried_kg() != b.carried_kg()) differ |= 1U << kMass;
    return differ;
}

// One block of days with one mixture.
void ride_mixture(const findings::StudySample& sample, const sampling::DayBlock& days,
                  const ride::Traits& traits, ride::BlockRider& rider, double* judged_s) {
    std::array<ride::RideResult, kLanes> results;
    rider.ride(days, traits, ride::Solver::kFast, results);
    for (std::size_t j = 0; j < kLanes; ++j) {
        const bool counts = results[j].ending == ride::Ending::kFinished;
        judged_s[j] = counts ? results[j].time_s : sample.judged_no_finish_s;
    }
}

// Mixtures that are no setup of their own are ridden; the others are in the sample.
MixedTimes ride_mixtures(const Prepared& prepared, const findings::StudySample& sample,
                         const BlockExecutor& run, int setup) {
    const scenario::Model& model = *prepared.model;
    const int against = model.decision.against;
    const auto of = [](int s) { return static_cast<std::size_t>(s); };
    const unsigned differ =
        find_differences(model.setups[of(setup)], model.setups[of(against)]);
    const std::size_t days = std::min(kPartDays, sample.days() / kLanes * kLanes);
    MixedTimes times;
    for (auto& row : times.judged_s) row.resize(days);
    for (std::size_t d = 0; d < days; ++d) {
        times.judged_s[0][d] = sample.judged_s[of(against)][d];
        times.judged_s[differ][d] = sample.judged_s[of(setup)][d];
    }
    run(days / kLanes, [&](std::size_t begin, std::size_t end) {
        ride::BlockRider rider(prepared.ride_plan());
        sampling::DayBlock block = prepared.days->make_block();
        for (std::size_t b = begin; b < end; ++b) {
            prepared.days->fill(b * kLanes, block);
            for (unsigned m = 1; m < kMixtures; ++m) {
                if ((m & ~differ) != 0 || m == differ) continue;
                ride_mixture(sample, block, mix(model, m, setup, against), rider,
                             times.judged_s[m].data() + b * kLanes);
            }
        }
    });
    for (unsigned m = 0; m < kMixtures; ++m) {
        if ((m & ~differ) != 0) times.judged_s[m] = times.judged_s[m & differ];
    }
    return times;
}

// A trait's part on one day: its effect averaged over what else has been exchanged before
// it.
double compute_part(const MixedTimes& times, unsigned trait, std::size_t day) {
    double part = 0.0;
    for (unsigned m = 0; m < kMixtures; ++m) {
        if ((m >> trait & 1U) != 0) continue;
        const unsigned with = m | 1U << trait;
        part += kOrders[std::popcount(m)] *
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
    const auto estimate = [&](Trait trait) {
        const auto part = estimate_part(times, trait, sample.design);
        return Figure{part.value, part.standard_error};
    };
    pair.rolling_s = estimate(kRolling);
    pair.air_lost_s = estimate(kLeak);
    pair.mass_s = estimate(kMass);
    const double rest_s =
        pair.rolling_s.value + pair.air_lost_s.value + pair.mass_s.value;
    pair.flats_s = {
        pair.mean_s.value - rest_s,
        std::hypot(pair.mean_s.standard_error, pair.rolling_s.standard_error)};
    pair.parts_known = true;
}

}  // namespace flattail::study
