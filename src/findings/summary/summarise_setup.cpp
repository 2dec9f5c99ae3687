#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "findings/sample/histogram.h"
#include "findings/sample/means.h"
#include "findings/sample/tail.h"
#include "findings/summary/summarise.h"

namespace flattail::findings {

namespace {

constexpr int kQuantiles = 1000;
const std::vector<double> kWorstShares{0.1, 0.05, 0.01};
const std::vector<double> kPercents{0.1, 1,  5,    10, 25,   50,  75,
                                    90,  95, 97.5, 99, 99.5, 99.9};

PercentileRow make_row(const WeightedSample& sample, double percent) {
    const double p = percent / 100.0;
    const Interval limits = sample.quantile_interval(p);
    return {percent, sample.quantile(p), {limits.low, limits.high}};
}

using Event = std::function<bool(const outcome::Tally&, std::size_t day)>;

Figure count_event(const StudySample& sample, std::size_t setup, const Event& happened) {
    const auto tallies = sample.outcomes->tallies(setup);
    std::vector<std::uint8_t> flag(tallies.size());
    for (std::size_t day = 0; day < flag.size(); ++day) {
        flag[day] = happened(tallies[day], day) ? 1 : 0;
    }
    return to_figure(estimate_chance(flag, sample.design));
}

bool is_unfinished(const outcome::Tally& t) {
    return t.ending != ride::Ending::kFinished;
}

void add_chances(const StudySample& sample, const scenario::Model& model, std::size_t s,
                 SetupFindings& f) {
    using outcome::Tally;
    const auto count = [&](const Event& event) { return count_event(sample, s, event); };
    f.flat = count([](const Tally& t, std::size_t) { return t.flats > 0; });
    f.two_flats = count([](const Tally& t, std::size_t) { return t.flats > 1; });
    f.front_flat = count([](const Tally& t, std::size_t) { return t.front_flats() > 0; });
    f.flat_at_speed = count([](const Tally& t, std::size_t) { return t.at_speed() > 0; });
    f.front_flat_at_speed =
        count([](const Tally& t, std::size_t) { return t.front_at_speed() > 0; });
    f.no_finish = count([](const Tally& t, std::size_t) { return is_unfinished(t); });
    f.over_cutoff =
        count([](const Tally& t, std::size_t) { return ride::is_over_cutoff(t.ending); });
    const auto lost = sample.outcomes->lost(s);
    const auto limit = static_cast<float>(model.decision.lost_by_flats_s);
    // Late without a flat is not a loss to flats.
    f.lose_long = count([&](const Tally& t, std::size_t day) {
        return t.flats > 0 && (lost[day] >= limit || is_unfinished(t));
    });
    for (const scenario::Goal& goal : model.race.goals) {
        const Estimate met = sample.finish[s]->cdf(goal.time_s);
        f.goals.push_back(to_figure(met));
    }
}

}  // namespace

std::vector<std::pair<ride::Ending, std::string>> list_causes(
    const scenario::Model& model) {
    std::vector<std::pair<ride::Ending, std::string>> causes = {
        {ride::Ending::kNoSpare, "no spare left"},
        {ride::Ending::kCannotRepair, "no repair and no help"},
        {ride::Ending::kTyreDestroyed, "tyre destroyed"}};
    const auto& cutoffs = model.race.cutoffs;
    for (std::size_t k = 0; k < cutoffs.size(); ++k) {
        causes.emplace_back(ride::end_at_cutoff(k),
                            cutoffs.size() == 1 ? "over the cutoff"
                                                : "over the cutoff, " + cutoffs[k].text);
    }
    return causes;
}

namespace {

void add_causes(const StudySample& sample, const scenario::Model& model, std::size_t s,
                SetupFindings& f) {
    for (const auto& [ending, words] : list_causes(model)) {
        const Figure chance = count_event(
            sample, s,
            [e = ending](const outcome::Tally& t, std::size_t) { return t.ending == e; });
        if (chance.value > 0.0) f.no_finish_causes.push_back({words, chance});
    }
}

// Days with a flat and a finish: what that cost.
void add_flat_costs(const StudySample& sample, std::size_t s, SetupFindings& f) {
    const auto tallies = sample.outcomes->tallies(s);
    const auto lost = sample.outcomes->lost(s);
    // A condition keeps every day and gives the others no weight: errors stay right.
    std::vector<double> cost(lost.begin(), lost.end()), weight(lost.size(), 0.0);
    double total = 0.0;
    for (std::size_t day = 0; day < tallies.size(); ++day) {
        if (tallies[day].flats == 0 || is_unfinished(tallies[day])) continue;
        // Within sight of the line a rider rolls over it: that flat cost nothing, and
        // would hide what a flat costs where hardly anyone can mend one.
        if (lost[day] <= 0.0F) continue;
        weight[day] = sample.design.weight[day];
        total += weight[day];
    }
    f.flat_costs_s = f.flat_costs_often_s = std::numeric_limits<double>::quiet_NaN();
    if (total > 0.0) {
        const WeightedSample costs(cost, Design{weight, sample.design.stratum});
        const Estimate usual = costs.estimate_quantile(0.5);
        const Estimate often = costs.estimate_quantile(0.9);
        f.flat_costs_s = usual.value;
        f.flat_costs_se_s = usual.standard_error;
        f.flat_costs_often_s = often.value;
        f.flat_costs_often_se_s = often.standard_error;
    }
    std::vector<double> counts(tallies.size());
    std::transform(tallies.begin(), tallies.end(), counts.begin(),
                   [](const outcome::Tally& t) { return static_cast<double>(t.flats); });
    f.flats_per_race = to_figure(estimate_mean(counts, sample.design));
}

void add_flats_by_cause(const StudySample& sample, std::size_t s, SetupFindings& f) {
    static constexpr const char* kWheels[] = {"front", "rear"};
    static constexpr const char* kCauses[] = {"cut", "pinch", "fitting"};
    const auto tallies = sample.outcomes->tallies(s);
    std::vector<double> counts(tallies.size());
    for (int w = 0; w < sampling::kWheels; ++w) {
        for (int c = 0; c < sampling::kCauses; ++c) {
            std::transform(tallies.begin(), tallies.end(), counts.begin(),
                           [=](const outcome::Tally& t) {
                               return static_cast<double>(t.count(w, c));
                           });
            f.flats_by_cause.push_back({kWheels[w], kCauses[c],
                                        to_figure(estimate_mean(counts, sample.design))});
        }
    }
}

}  // namespace

const std::vector<double>& listed_percents() { return kPercents; }

Figure to_figure(const Estimate& estimate) {
    return {estimate.value, estimate.standard_error, estimate.skewness, estimate.freedom};
}

SetupFindings summarise_setup(const StudySample& sample, const scenario::Model& model,
                              std::size_t s) {
    SetupFindings f;
    const scenario::Setup& setup = model.setups[s];
    f.name = setup.name;
    f.vetoed = setup.vetoed;
    f.cautions = setup.cautions;
    const WeightedSample& finish = *sample.finish[s];
    for (const double percent : kPercents)
        f.percentiles.push_back(make_row(finish, percent));
    f.typical_s = finish.quantile(0.5);
    f.nine_in_ten_s = {finish.quantile(0.05), finish.quantile(0.95)};
    f.mean_judged_s = to_figure(estimate_mean(sample.judged_s[s], sample.design));
    f.sd_judged_s = to_figure(estimate_sd(sample.judged_s[s], sample.design));
    for (const double share : kWorstShares) {
        f.worst_days.push_back(
            {share, to_figure(estimate_worst_average(*sample.judged[s], 1.0 - share))});
    }
    add_chances(sample, model, s, f);
    add_causes(sample, model, s, f);
    add_flat_costs(sample, s, f);
    add_flats_by_cause(sample, s, f);
    for (int q = 0; q < kQuantiles; ++q) {
        f.quantiles_s.push_back(finish.quantile((q + 0.5) / kQuantiles));
    }
    return f;
}

HistogramFindings summarise_histogram(const StudySample& sample,
                                      const scenario::Model& model) {
    std::vector<const WeightedSample*> all;
    for (const auto& finish : sample.finish) all.push_back(finish.get());
    const double anchor =
        model.race.goals.empty() ? 0.0 : model.race.goals.front().time_s;
    HistogramFindings h;
    h.edges_s = choose_time_edges(all, anchor);
    for (const WeightedSample* finish : all) {
        const Histogram counted = count_by_edges(*finish, h.edges_s);
        std::vector<double> shares, errors;
        for (const Estimate& share : counted.share) {
            shares.push_back(share.value);
            errors.push_back(share.standard_error);
        }
        h.shares.push_back(std::move(shares));
        h.standard_errors.push_back(std::move(errors));
    }
    return h;
}

}  // namespace flattail::findings
