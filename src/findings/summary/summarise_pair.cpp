#include <cmath>
#include <limits>

#include "findings/independent_luck.h"
#include "findings/paired.h"
#include "findings/sample/means.h"
#include "findings/summary/summarise.h"

namespace flattail::findings {

namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

PercentileRow make_row(const WeightedSample& difference, double percent) {
    const Interval limits = difference.quantile_interval(percent / 100.0);
    return {percent, difference.quantile(percent / 100.0), {limits.low, limits.high}};
}

// Half the width of the 95 % interval over 1.96: a standard error to print.
Figure read_median(const WeightedSample& difference) {
    const Interval limits = difference.quantile_interval(0.5);
    return {difference.quantile(0.5),
            (limits.high - limits.low) / (2.0 * normal_factor(kConfidence))};
}

// A day that flats or a cutoff along the road ended; rides over the cutoff at the finish
// are whole.
bool is_cut_short(const scenario::Model& model, ride::Ending ending) {
    if (!ride::is_over_cutoff(ending)) return ending != ride::Ending::kFinished;
    const auto first = static_cast<std::size_t>(ride::Ending::kOverCutoff);
    return !model.race.cutoffs[static_cast<std::size_t>(ending) - first].is_at_finish();
}

// Finish times of the setup with the flats of other days, over the same cutoff at the
// finish. Who came too late to one on the way keeps that by his legs, or with a flat
// hands it on with his flats.
std::vector<double> ride_other_flats(const StudySample& sample,
                                     const scenario::Model& model, std::size_t setup,
                                     std::uint64_t seed) {
    const auto times = sample.outcomes->times(setup);
    const auto lost = sample.outcomes->lost(setup);
    const auto tallies = sample.outcomes->tallies(setup);
    std::vector<double> legs(times.begin(), times.end()), delay(times.size());
    for (std::size_t day = 0; day < legs.size(); ++day) {
        const bool ended = is_cut_short(model, tallies[day].ending);
        const bool by_flats = ended && tallies[day].flats > 0;
        delay[day] = by_flats ? kInfinity : static_cast<double>(lost[day]);
        if (!by_flats) legs[day] = ended ? kInfinity : legs[day] - delay[day];
    }
    std::vector<double> finish =
        exchange_flats({legs, delay}, {sample.design.weight, {}, seed});
    if (model.race.cutoff_s) {
        for (double& time : finish) {
            if (time > *model.race.cutoff_s) time = kInfinity;
        }
    }
    return finish;
}

std::vector<double> judge(std::vector<double> finish, double no_finish_s) {
    for (double& time : finish) {
        if (!std::isfinite(time)) time = no_finish_s;
    }
    return finish;
}

void add_independent(const StudySample& sample, const scenario::Model& model,
                     std::size_t s, PairFindings& pair) {
    const auto against = static_cast<std::size_t>(model.decision.against);
    // The seed only deals out flats among days; it is part of the method, not of the
    // study.
    const std::vector<double> finish = ride_other_flats(sample, model, s, 1 + s);
    const std::vector<double> judged = judge(finish, sample.judged_no_finish_s);
    const PairedFindings found =
        compare_pair({finish, judged},
                     {sample.finish_s[against], sample.judged_s[against]}, sample.design);
    // The means are equal by construction, so shared luck tells the error of both.
    pair.mean_independent_s = {found.mean_difference_s.value, pair.mean_s.standard_error};
    pair.faster_independent = to_figure(found.chance_faster);
}

// In a function of its own, so that its days are gone before the next ones are made.
void add_percentiles(const StudySample& sample, const scenario::Model& model,
                     PairFindings& pair) {
    const auto s = static_cast<std::size_t>(pair.setup);
    const auto against = static_cast<std::size_t>(model.decision.against);
    const std::vector<double> by_day =
        difference_by_day(sample.judged_s[s], sample.judged_s[against]);
    const WeightedSample difference(by_day, sample.design);
    pair.day_sd_s = to_figure(estimate_sd(by_day, sample.design));
    for (const double percent : listed_percents()) {
        pair.percentiles.push_back(make_row(difference, percent));
    }
    pair.median_s = read_median(difference);
}

}  // namespace

PairFindings summarise_pair(const StudySample& sample, const scenario::Model& model,
                            std::size_t s) {
    const auto against = static_cast<std::size_t>(model.decision.against);
    PairFindings pair;
    pair.setup = static_cast<int>(s);
    const PairedFindings found =
        compare_pair({sample.finish_s[s], sample.judged_s[s]},
                     {sample.finish_s[against], sample.judged_s[against]}, sample.design);
    pair.mean_s = to_figure(found.mean_difference_s);
    pair.faster = to_figure(found.chance_faster);
    pair.ties = to_figure(found.chance_tie);
    pair.both_finish = to_figure(found.both_finish);
    pair.only_setup_finishes = to_figure(found.only_a_finishes);
    pair.only_against_finishes = to_figure(found.only_b_finishes);
    pair.neither_finishes = to_figure(found.neither_finishes);
    add_percentiles(sample, model, pair);
    const Estimate p95 =
        estimate_quantile_difference(*sample.finish[s], *sample.finish[against], 0.95);
    pair.p95_difference_s = {p95.value, p95.standard_error};
    add_independent(sample, model, s, pair);
    return pair;
}

}  // namespace flattail::findings
