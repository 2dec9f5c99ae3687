// Which pressure is best, front and rear: METHOD 16.5.
#include <algorithm>
#include <cmath>

#include "findings/sample/means.h"
#include "findings/summary/study_sample.h"
#include "flattail/preparation.h"
#include "physics/constants.h"
#include "physics/rolling.h"
#include "study/days/ride_days.h"
#include "study/pressure/limits.h"

namespace flattail {

namespace {

using scenario::Model;
using scenario::Setup;

// Days per pressure: a pinch flat more in 200 races is then known to .6 s.
constexpr std::size_t kDays = 8192;
// Pressures tried between the bounds, both among them.
constexpr int kTrials = 13;
// Differences below this are flat. Assumption: nobody pumps or feels that exactly.
constexpr double kFlat_s = 5.0;

// Rising, with the stated one first of all.
std::vector<double> list_trials(const study::PumpBounds& bounds) {
    std::vector<double> trials;
    const double range = bounds.highest.gauge_pa - bounds.lowest.gauge_pa;
    for (int i = 0; i < kTrials; ++i) {
        trials.push_back(bounds.lowest.gauge_pa + range * i / (kTrials - 1));
    }
    return trials;
}

// The scenario with one setup only, stated and with every pressure tried on one wheel.
Model make_trials(const Model& model, const Setup& setup, std::size_t wheel,
                  const std::vector<double>& trials) {
    Model tried = model;
    tried.setups = {setup};
    tried.decision.against = 0;
    for (const double gauge_pa : trials) {
        Setup other = setup;
        other.wheels[wheel].gauge_pa = gauge_pa;
        tried.setups.push_back(other);
    }
    return tried;
}

PressureTrial read_trial(const findings::StudySample& sample, std::size_t s,
                         double gauge_pa) {
    const std::size_t days = sample.days();
    std::vector<double> difference_s(days), flats(days);
    const auto tallies = sample.outcomes->tallies(s);
    for (std::size_t d = 0; d < days; ++d) {
        difference_s[d] = sample.judged_s[s][d] - sample.judged_s[0][d];
        flats[d] = tallies[d].flats;
    }
    const auto mean = findings::estimate_mean(difference_s, sample.design);
    PressureTrial trial;
    trial.gauge_pa = gauge_pa;
    trial.against_stated_s = {mean.value, mean.standard_error};
    trial.flats_per_race = findings::estimate_mean(flats, sample.design).value;
    return trial;
}

// The run of trials about the best that are as good as it.
void mark_flat_region(std::size_t best, WheelPressure& wheel) {
    const double best_s = wheel.trials[best].against_stated_s.value;
    const auto is_flat = [&](std::size_t i) {
        const Figure& f = wheel.trials[i].against_stated_s;
        return f.value - best_s <= std::max(kFlat_s, f.standard_error);
    };
    std::size_t from = best, to = best;
    while (from > 0 && is_flat(from - 1)) --from;
    while (to + 1 < wheel.trials.size() && is_flat(to + 1)) ++to;
    for (std::size_t i = from; i <= to; ++i) wheel.trials[i].in_flat_region = true;
    wheel.flat_from_pa = wheel.trials[from].gauge_pa;
    wheel.flat_to_pa = wheel.trials[to].gauge_pa;
}

void try_wheel(const Model& model, const Setup& setup, std::size_t w,
               const StudyOptions& options, WheelPressure& wheel) {
    const std::vector<double> trials = list_trials({wheel.lowest, wheel.highest});
    const Model tried = make_trials(model, setup, w, trials);
    const study::Prepared prepared = study::prepare(tried, options);
    const auto run = study::make_parallel_executor(options.threads);
    const auto outcomes = study::ride_days(prepared, kDays, run);
    const auto sample = findings::sort_outcomes(outcomes, tried, kDays);
    for (std::size_t i = 0; i < trials.size(); ++i) {
        wheel.trials.push_back(read_trial(*sample, i + 1, trials[i]));
    }
    const auto best =
        std::min_element(wheel.trials.begin(), wheel.trials.end(),
                         [](const PressureTrial& a, const PressureTrial& b) {
                             return a.against_stated_s.value < b.against_stated_s.value;
                         });
    wheel.best_pa = best->gauge_pa;
    wheel.gain_s = best->against_stated_s.value;
    mark_flat_region(static_cast<std::size_t>(best - wheel.trials.begin()), wheel);
}

SetupPressure try_setup(const Model& model, const study::Prepared& prepared, Setup setup,
                        const StudyOptions& options) {
    SetupPressure found;
    found.name = setup.name;
    for (std::size_t w = 0; w < found.wheels.size(); ++w) {
        const auto limits = study::find_pump_limits(model, setup, static_cast<int>(w));
        for (const std::string& missing : limits.missing) {
            if (std::find(found.missing.begin(), found.missing.end(), missing) ==
                found.missing.end()) {
                found.missing.push_back(missing);
            }
        }
        WheelPressure& wheel = found.wheels[w];
        wheel.wheel = w == 0 ? "front" : "rear";
        wheel.stated_pa = setup.wheels[w].gauge_pa;
        if (!limits.most) continue;
        const study::PumpBounds bounds = study::find_pump_bounds(prepared, limits);
        wheel.lowest = bounds.lowest;
        wheel.highest = bounds.highest;
        if (bounds.lowest.gauge_pa >= bounds.highest.gauge_pa) continue;
        try_wheel(model, setup, w, options, wheel);
        setup.wheels[w].gauge_pa = wheel.best_pa;
    }
    return found;
}

}  // namespace

std::vector<SetupPressure> find_best_pressures(const Scenario& scenario,
                                               const StudyOptions& options) {
    const Model& model = scenario.model();
    const study::Prepared prepared = study::prepare(model, options);
    std::vector<SetupPressure> found;
    for (const Setup& setup : model.setups) {
        if (options.should_stop && options.should_stop()) break;
        found.push_back(try_setup(model, prepared, setup, options));
        if (!options.progress) continue;
        options.progress(static_cast<double>(found.size()) /
                         static_cast<double>(model.setups.size()));
    }
    return found;
}

}  // namespace flattail
