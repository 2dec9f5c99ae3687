#include "findings/summary/study_sample.h"

#include <cmath>
#include <limits>

namespace flattail::findings {

namespace {

std::vector<double> read_finish(const outcome::Outcomes& outcomes, std::size_t setup,
                                std::size_t days) {
    const auto times = outcomes.times(setup).first(days);
    const auto tallies = outcomes.tallies(setup);
    std::vector<double> finish(times.begin(), times.end());
    for (std::size_t day = 0; day < finish.size(); ++day) {
        if (tallies[day].ending != ride::Ending::kFinished) {
            finish[day] = std::numeric_limits<double>::infinity();
        }
    }
    return finish;
}

double find_judged_no_finish(const StudySample& sample, const scenario::Model& model) {
    if (model.race.cutoff_s) return *model.race.cutoff_s;
    const auto against = static_cast<std::size_t>(model.decision.against);
    const double typical = sample.finish[against]->quantile(0.5);
    // Where not even half of the days finish, the longest finish stands in for the
    // typical one.
    double base = typical;
    if (!std::isfinite(typical)) {
        base = 0.0;
        for (const double t : sample.finish_s[against]) {
            if (std::isfinite(t)) base = std::max(base, t);
        }
    }
    return base + model.decision.no_finish_costs_s;
}

}  // namespace

std::unique_ptr<StudySample> sort_outcomes(const outcome::Outcomes& outcomes,
                                           const scenario::Model& model, std::size_t days,
                                           const Runner& run) {
    auto sample = std::make_unique<StudySample>();
    sample->outcomes = &outcomes;
    sample->design = {outcomes.weights().first(days), outcomes.groups().first(days)};
    const std::size_t setups = outcomes.setups();
    sample->finish_s.resize(setups);
    sample->judged_s.resize(setups);
    sample->finish.resize(setups);
    sample->judged.resize(setups);
    run(setups, [&](std::size_t begin, std::size_t end) {
        for (std::size_t s = begin; s < end; ++s) {
            sample->finish_s[s] = read_finish(outcomes, s, days);
            sample->finish[s] =
                std::make_unique<WeightedSample>(sample->finish_s[s], sample->design);
        }
    });
    sample->judged_no_finish_s = find_judged_no_finish(*sample, model);
    run(setups, [&](std::size_t begin, std::size_t end) {
        for (std::size_t s = begin; s < end; ++s) {
            std::vector<double>& judged = sample->judged_s[s] = sample->finish_s[s];
            for (double& time : judged) {
                if (!std::isfinite(time)) time = sample->judged_no_finish_s;
            }
            sample->judged[s] = std::make_unique<WeightedSample>(judged, sample->design);
        }
    });
    return sample;
}

}  // namespace flattail::findings
