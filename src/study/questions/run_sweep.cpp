// One study per value, on the same race days.
#include "flattail/sweep.h"
#include "input/toml/document.h"
#include "study/questions/sweep_steps.h"

namespace flattail {

namespace {

// What a value of the sweep spoils is told as a mistake of --over.
[[noreturn]] void throw_from_over(std::vector<Problem> problems) {
    for (Problem& problem : problems) {
        if (problem.place.file == input::kSetPlace) {
            problem.place.file = study::kOverPlace;
        }
    }
    throw InvalidInput(std::move(problems));
}

// All scenarios before the first ride: a value that is refused costs no time.
std::vector<Scenario> read_scenarios(const ScenarioSource& source,
                                     const study::SweepSteps& sweep) {
    read_scenario(source);
    std::vector<Scenario> scenarios;
    for (const study::SweepStep& step : sweep.steps) {
        ScenarioSource changed = source;
        changed.settings.push_back(sweep.key + "=" + step.value);
        try {
            scenarios.push_back(read_scenario(changed));
        } catch (const InvalidInput& error) {
            throw_from_over(error.problems());
        }
    }
    return scenarios;
}

}  // namespace

SweepFindings run_sweep(const ScenarioSource& source, const std::string& over,
                        const StudyOptions& options) {
    const study::SweepSteps sweep = study::read_sweep(over);
    const std::vector<Scenario> scenarios = read_scenarios(source, sweep);
    SweepFindings found{sweep.key, sweep.unit, {}, false};
    const double share = 1.0 / static_cast<double>(scenarios.size());
    for (std::size_t i = 0; i < scenarios.size(); ++i) {
        StudyOptions step = options;
        if (options.progress) {
            step.progress = [&](double done) {
                options.progress(share * (static_cast<double>(i) + done));
            };
        }
        Findings findings = run_study(scenarios[i], step);
        found.stopped_early = findings.facts.stopped_early;
        if (found.stopped_early) break;
        found.points.push_back(
            {sweep.steps[i].value, sweep.steps[i].number, std::move(findings)});
    }
    return found;
}

}  // namespace flattail
