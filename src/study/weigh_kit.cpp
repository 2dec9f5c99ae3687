#include "study/weigh_kit.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "findings/sample/means.h"
#include "ride/traits.h"
#include "study/kit/kit_trials.h"

namespace flattail::study {

namespace {

using sampling::kLanes;

// Days ridden for each other kit. More: sharper figures, proportional time. 4,096 tell a
// race saved in 300 to a fifth or so, since days with flats are drawn more often.
constexpr std::size_t kKitDays = 4096;
// Weight acts on every day alike; a few days tell it to a hundredth of a second.
constexpr std::size_t kWeightDays = 512;
constexpr double kTrialWeight_kg = 0.1;

struct Ridden {
    std::vector<double> judged_s;
    std::vector<double> finished;  // 1 or 0
};

std::size_t count_days(const findings::StudySample& sample, std::size_t wanted) {
    return std::min(wanted, sample.days() / kLanes * kLanes);
}

Ridden ride_days(const Prepared& prepared, const findings::StudySample& sample,
                 const BlockExecutor& run, const ride::Traits& traits, std::size_t days) {
    Ridden ridden{std::vector<double>(days), std::vector<double>(days)};
    run(days / kLanes, [&](std::size_t begin, std::size_t end) {
        ride::BlockRider rider(prepared.ride_plan());
        sampling::DayBlock block = prepared.days->make_block();
        std::array<ride::RideResult, kLanes> results;
        for (std::size_t b = begin; b < end; ++b) {
            prepared.days->fill(b * kLanes, block);
            rider.ride(block, traits, ride::Solver::kFast, results);
            for (std::size_t j = 0; j < kLanes; ++j) {
                const bool finished = results[j].ending == ride::Ending::kFinished;
                const std::size_t day = b * kLanes + j;
                ridden.finished[day] = finished ? 1.0 : 0.0;
                ridden.judged_s[day] =
                    finished ? results[j].time_s : sample.judged_no_finish_s;
            }
        }
    });
    return ridden;
}

Figure estimate(const std::vector<double>& having, const std::vector<double>& lacking,
                const findings::Design& design) {
    std::vector<double> gain(having.size());
    for (std::size_t day = 0; day < gain.size(); ++day) {
        gain[day] = having[day] - lacking[day];
    }
    const findings::Design part{
        design.weight.first(gain.size()),
        design.stratum.empty() ? design.stratum : design.stratum.first(gain.size())};
    const findings::Estimate mean = findings::estimate_mean(gain, part);
    return {mean.value, mean.standard_error};
}

// Seconds that one kilogram more costs on an average day.
Figure weigh_kilogram(const Prepared& prepared, const findings::StudySample& sample,
                      const BlockExecutor& run, const scenario::Setup& setup) {
    const std::size_t days = count_days(sample, kWeightDays);
    scenario::Setup heavier = setup;
    heavier.added_mass_kg += kTrialWeight_kg;
    const Ridden as_is = ride_days(prepared, sample, run, ride::Traits::of(setup), days);
    ride::Traits traits = ride::Traits::of(setup);
    traits.mass = &heavier;
    const Ridden loaded = ride_days(prepared, sample, run, traits, days);
    const Figure cost = estimate(loaded.judged_s, as_is.judged_s, sample.design);
    return {cost.value / kTrialWeight_kg, cost.standard_error / kTrialWeight_kg};
}

KitRow make_row(const KitTrial& trial, const Ridden& as_is, const Ridden& other,
                const Figure& kilogram, const findings::Design& design) {
    KitRow row;
    row.item = trial.item;
    row.carried = trial.carried;
    row.is_added = trial.is_added;
    row.weighs_kg = trial.weighs_kg;
    const Ridden& having = trial.is_added ? other : as_is;
    const Ridden& lacking = trial.is_added ? as_is : other;
    row.finishes = estimate(having.finished, lacking.finished, design);
    row.saves_s = estimate(lacking.judged_s, having.judged_s, design);
    row.costs_s = {kilogram.value * trial.weighs_kg,
                   kilogram.standard_error * trial.weighs_kg};
    row.net_s = {row.saves_s.value - row.costs_s.value,
                 std::hypot(row.saves_s.standard_error, row.costs_s.standard_error)};
    return row;
}

}  // namespace

std::vector<KitRow> weigh_kit(const Prepared& prepared,
                              const findings::StudySample& sample,
                              const BlockExecutor& run, int index) {
    const scenario::Setup& setup =
        prepared.model->setups[static_cast<std::size_t>(index)];
    std::vector<KitRow> rows;
    const std::size_t days = count_days(sample, kKitDays);
    if (days == 0) return rows;
    const Figure kilogram = weigh_kilogram(prepared, sample, run, setup);
    const Ridden as_is = ride_days(prepared, sample, run, ride::Traits::of(setup), days);
    for (const KitTrial& trial : list_kit_trials(*prepared.model, setup)) {
        ride::Traits traits = ride::Traits::of(setup);
        traits.flats = &trial.changed;
        const Ridden other = ride_days(prepared, sample, run, traits, days);
        rows.push_back(make_row(trial, as_is, other, kilogram, sample.design));
        rows.back().setup = index;
    }
    return rows;
}

void weigh_kits(const Prepared& prepared, const findings::StudySample& sample,
                const BlockExecutor& run, Findings& findings) {
    std::vector<int> setups{findings.against};
    const int choice = findings.verdict.choice;
    if (choice >= 0 && choice != findings.against) setups.insert(setups.begin(), choice);
    for (const int setup : setups) {
        for (KitRow& row : weigh_kit(prepared, sample, run, setup)) {
            findings.kit.push_back(std::move(row));
        }
    }
}

}  // namespace flattail::study
