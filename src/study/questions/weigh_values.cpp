// How far each uncertain value could move the answer: the same race days ridden again
// with that value at either end of its 9-in-10 range.
#include <algorithm>
#include <cmath>
#include <vector>

#include "chance/distribution.h"
#include "findings/sample/means.h"
#include "findings/summary/study_sample.h"
#include "flattail/study.h"
#include "study/days/ride_days.h"

namespace flattail {

namespace {

using scenario::Model;

// Ends of the range, as `check` prints it.
constexpr double kLowEnd = 0.05;
constexpr double kHighEnd = 0.95;

// Days per ride of the road. Enough to rank: a fact that moves flats by a tenth is known
// to a few seconds, one that moves rolling to a hundredth. Twice as many take twice as
// long.
constexpr std::size_t kDays = 2048;

bool is_point(const Distribution& distribution) {
    return distribution.shape == Shape::kPoint;
}

Distribution make_point(double value) {
    Distribution point;
    point.a = value;
    return point;
}

// The input held at a share of its luck and its knowledge; the day's luck stays in one
// that has both, because knowledge is what a user can mend.
void hold(Input& input, double share) {
    if (!is_point(input.knowledge)) {
        input.knowledge = make_point(chance::quantile(input.knowledge, share));
    } else if (input.deviation != Deviation::kNone) {
        input.luck = make_point(chance::quantile(input.luck, share));
    }
}

bool is_certain(const Input& input) {
    return is_point(input.knowledge) &&
           (input.deviation == Deviation::kNone || is_point(input.luck));
}

// A correlation would draw a value that is held; the others keep theirs.
void release(int index, Model& model) {
    const auto has = [index](const scenario::Correlation& together) {
        return std::any_of(together.inputs.begin(), together.inputs.end(),
                           [index](InputId id) { return id.index == index; });
    };
    auto& all = model.correlations;
    all.erase(std::remove_if(all.begin(), all.end(), has), all.end());
}

// Mean judged time of every setup.
struct Answer {
    std::vector<double> mean_s;
    double no_finish_s = 0.0;
};

double mean_judged_s(const outcome::Outcomes& outcomes, std::size_t setup,
                     double no_finish_s) {
    double sum = 0.0, total = 0.0;
    for (std::size_t d = 0; d < outcomes.days(); ++d) {
        const bool counts = outcomes.tallies(setup)[d].ending == ride::Ending::kFinished;
        const double weight = outcomes.weights()[d];
        sum += weight * (counts ? outcomes.times(setup)[d] : no_finish_s);
        total += weight;
    }
    return sum / total;
}

Answer answer(const Model& model, const StudyOptions& options,
              const study::BlockExecutor& run, double no_finish_s) {
    const study::Prepared prepared = study::prepare(model, options);
    const outcome::Outcomes outcomes = study::ride_days(prepared, kDays, run);
    Answer found;
    found.no_finish_s =
        no_finish_s > 0.0
            ? no_finish_s
            : findings::sort_outcomes(outcomes, model, kDays)->judged_no_finish_s;
    for (std::size_t s = 0; s < model.setups.size(); ++s) {
        found.mean_s.push_back(mean_judged_s(outcomes, s, found.no_finish_s));
    }
    return found;
}

ValueWeight compare(const Answer& low, const Answer& high, int against) {
    const auto a = static_cast<std::size_t>(against);
    ValueWeight weight;
    weight.finish_s = high.mean_s[a] - low.mean_s[a];
    for (std::size_t s = 0; s < low.mean_s.size(); ++s) {
        const double moved =
            (high.mean_s[s] - high.mean_s[a]) - (low.mean_s[s] - low.mean_s[a]);
        if (std::abs(moved) > std::abs(weight.difference_s)) {
            weight.difference_s = moved;
            weight.setup = static_cast<int>(s);
        }
    }
    return weight;
}

}  // namespace

std::vector<ValueWeight> weigh_values(const Scenario& scenario,
                                      const StudyOptions& options) {
    const Model& model = scenario.model();
    const study::BlockExecutor run = study::make_parallel_executor(options.threads);
    const Answer base = answer(model, options, run, 0.0);
    std::vector<ValueWeight> weights;
    for (std::size_t i = 0; i < model.inputs.size(); ++i) {
        if (options.should_stop && options.should_stop()) break;
        if (options.progress) {
            options.progress(static_cast<double>(i) /
                             static_cast<double>(model.inputs.size()));
        }
        if (is_certain(model.inputs[i])) continue;
        Answer ends[2];
        for (int end = 0; end < 2; ++end) {
            Model held = model;
            release(static_cast<int>(i), held);
            hold(held.inputs[i], end == 0 ? kLowEnd : kHighEnd);
            ends[end] = answer(held, options, run, base.no_finish_s);
        }
        ValueWeight weight = compare(ends[0], ends[1], model.decision.against);
        weight.name = model.inputs[i].name;
        weights.push_back(std::move(weight));
    }
    if (options.progress) options.progress(1.0);
    return weights;
}

}  // namespace flattail
