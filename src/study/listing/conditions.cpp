#include "study/listing/conditions.h"

#include <algorithm>

#include "findings/sample/means.h"
#include "findings/summary/summarise.h"
#include "scenario/forecast.h"

namespace flattail::study {

namespace {

using sampling::kLanes;

// Fewer effective days would tell nothing of their flats. Assumption.
constexpr double kFewestDays = 200.0;

// The greatest chance of rain between two clocks: a day's rain level below it is wet.
double find_rain_chance(const scenario::Weather& weather, double from_s, double to_s) {
    double chance = std::max(scenario::read_forecast(weather, from_s).rain_chance,
                             scenario::read_forecast(weather, to_s).rain_chance);
    for (const scenario::ForecastRow& row : weather.rows) {
        if (row.clock_s > from_s && row.clock_s < to_s) {
            chance = std::max(chance, row.rain_chance);
        }
    }
    return chance;
}

std::vector<double> draw_rain(const sampling::DayPlan& plan, InputId rain,
                              std::size_t days) {
    std::vector<double> level(days);
    sampling::DayBlock block = plan.make_block();
    for (std::size_t first = 0; first < days; first += kLanes) {
        plan.fill_values(first, block);
        const double* drawn = block.of(rain);
        std::copy_n(drawn, std::min<std::size_t>(kLanes, days - first),
                    level.begin() + static_cast<std::ptrdiff_t>(first));
    }
    return level;
}

// A condition keeps every day and gives the others no weight, so that errors stay right.
findings::Design keep_days(const findings::Design& design,
                           const std::vector<double>& weight) {
    return {weight, design.stratum};
}

std::vector<double> mark_flats(const findings::StudySample& sample, std::size_t setup) {
    const auto tallies = sample.outcomes->tallies(setup);
    std::vector<double> flat(tallies.size());
    std::transform(tallies.begin(), tallies.end(), flat.begin(),
                   [](const outcome::Tally& t) { return t.flats > 0 ? 1.0 : 0.0; });
    return flat;
}

ConditionRow summarise_row(const findings::StudySample& sample,
                           const findings::Design& design, std::size_t setup,
                           std::size_t against) {
    ConditionRow row;
    row.typical_s =
        findings::WeightedSample(sample.finish_s[setup], design).quantile(0.5);
    row.flat =
        findings::to_figure(findings::estimate_mean(mark_flats(sample, setup), design));
    std::vector<double> difference(sample.days());
    for (std::size_t d = 0; d < difference.size(); ++d) {
        difference[d] = sample.judged_s[setup][d] - sample.judged_s[against][d];
    }
    row.against_s = findings::to_figure(findings::estimate_mean(difference, design));
    return row;
}

// `holds`: 1 on the days of the condition, else 0.
ConditionFindings summarise_condition(const char* name, const std::vector<double>& holds,
                                      const findings::StudySample& sample,
                                      std::size_t against, const findings::Runner& run) {
    ConditionFindings condition;
    condition.name = name;
    condition.share = findings::to_figure(findings::estimate_mean(holds, sample.design));
    std::vector<double> weight(holds.size());
    std::transform(holds.begin(), holds.end(), sample.design.weight.begin(),
                   weight.begin(), std::multiplies<>());
    const findings::Design design = keep_days(sample.design, weight);
    condition.setups.resize(sample.setups());
    run(sample.setups(), [&](std::size_t begin, std::size_t end) {
        for (std::size_t s = begin; s < end; ++s) {
            condition.setups[s] = summarise_row(sample, design, s, against);
        }
    });
    return condition;
}

}  // namespace

std::vector<ConditionFindings> split_by_rain(const findings::StudySample& sample,
                                             const sampling::DayPlan& plan,
                                             const scenario::Model& model,
                                             const findings::Runner& run) {
    const auto against = static_cast<std::size_t>(model.decision.against);
    const double from_s = model.race.start_clock_s;
    const double typical_s = sample.finish[against]->quantile(0.5);
    const double to_s = from_s + std::min(typical_s, 86400.0);
    const double chance = find_rain_chance(model.weather, from_s, to_s);
    const double effective = findings::effective_size(sample.design);
    if (std::min(chance, 1.0 - chance) * effective < kFewestDays) return {};
    std::vector<double> wet = draw_rain(plan, model.weather.rain, sample.days());
    for (double& level : wet) level = level < chance ? 1.0 : 0.0;
    std::vector<double> dry(wet.size());
    std::transform(wet.begin(), wet.end(), dry.begin(), [](double w) { return 1.0 - w; });
    return {summarise_condition("dry", dry, sample, against, run),
            summarise_condition("wet", wet, sample, against, run)};
}

}  // namespace flattail::study
