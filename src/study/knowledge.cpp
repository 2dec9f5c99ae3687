#include "study/knowledge.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "findings/knowledge/fit.h"
#include "findings/sample/means.h"

namespace flattail::study {

namespace {

using findings::KnowledgeBlock;
using sampling::kLanes;

// Days whose facts stand for all draws of what is not known: 4,096 give the ends of a
// 9-in-10 range to 2 % of its width.
constexpr std::size_t kDraws = 4096;
constexpr std::size_t kRunOfDays = 16 * kLanes;
// An input is looked at when it moves a difference by more than this many standard
// errors.
constexpr double kNoticed = 3.0;

/// Correlation sums of one input with one difference.
struct Screen {
    double linear = 0.0;
    double square = 0.0;
};

/// A setup's difference to the one compared with, about its mean and times the weight.
struct Difference {
    const double* judged_s = nullptr;
    const double* against_s = nullptr;
    const double* weight = nullptr;
    double mean = 0.0;
    double squares = 0.0;

    double at(std::size_t day) const {
        return weight[day] * (judged_s[day] - against_s[day] - mean);
    }
};

Difference measure_difference(const findings::StudySample& sample, std::size_t setup,
                              std::size_t against) {
    Difference d{sample.judged_s[setup].data(), sample.judged_s[against].data(),
                 sample.design.weight.data()};
    double sum = 0.0, total = 0.0;
    for (std::size_t day = 0; day < sample.days(); ++day) {
        sum += d.weight[day] * (d.judged_s[day] - d.against_s[day]);
        total += d.weight[day];
    }
    d.mean = sum / total;
    for (std::size_t day = 0; day < sample.days(); ++day) {
        d.squares += d.at(day) * d.at(day);
    }
    return d;
}

// One input against every difference; its scores are drawn once for all of them.
std::vector<double> screen_input(const std::vector<Difference>& differences,
                                 const sampling::DayPlan& plan, InputId input,
                                 std::size_t days) {
    std::vector<Screen> screens(differences.size());
    double z[kLanes];
    for (std::size_t first = 0; first < days; first += kLanes) {
        plan.fill_knowledge_scores(input, first, z);
        const std::size_t lanes = std::min<std::size_t>(kLanes, days - first);
        for (std::size_t s = 0; s < differences.size(); ++s) {
            if (differences[s].squares <= 0.0) continue;
            for (std::size_t j = 0; j < lanes; ++j) {
                const double weighted = differences[s].at(first + j);
                screens[s].linear += weighted * z[j];
                screens[s].square += weighted * (z[j] * z[j] - 1.0);
            }
        }
    }
    std::vector<double> strength(differences.size());
    for (std::size_t s = 0; s < differences.size(); ++s) {
        if (differences[s].squares <= 0.0) continue;
        // The square term has variance 2.
        strength[s] = std::max(std::abs(screens[s].linear),
                               std::abs(screens[s].square) / std::sqrt(2.0)) /
                      std::sqrt(differences[s].squares);
    }
    return strength;
}

// How strongly each input goes with each setup's difference to the one compared with, in
// standard errors: the larger of the linear and the quadratic term.
// Shapes: strength[setup][input]
std::vector<std::vector<double>> screen_inputs(const findings::StudySample& sample,
                                               const sampling::DayPlan& plan,
                                               const std::vector<InputId>& inputs,
                                               std::size_t against,
                                               const BlockExecutor& run) {
    std::vector<Difference> differences;
    for (std::size_t s = 0; s < sample.setups(); ++s) {
        differences.push_back(measure_difference(sample, s, against));
    }
    std::vector<std::vector<double>> strength(sample.setups(),
                                              std::vector<double>(inputs.size()));
    run(inputs.size(), [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            const auto found = screen_input(differences, plan, inputs[i], sample.days());
            for (std::size_t s = 0; s < found.size(); ++s) strength[s][i] = found[s];
        }
    });
    return strength;
}

std::vector<InputId> choose_facts(const std::vector<InputId>& inputs,
                                  const std::vector<double>& strength) {
    std::vector<std::size_t> order(inputs.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return strength[a] > strength[b];
    });
    std::vector<InputId> facts;
    for (const std::size_t i : order) {
        if (strength[i] < kNoticed || facts.size() == kMostFacts) break;
        facts.push_back(inputs[i]);
    }
    return facts;
}

using Rows = std::vector<std::vector<double>>;
using Views = std::vector<std::span<const double>>;

Views view(const Rows& rows, std::size_t length) {
    Views views;
    for (const auto& row : rows) views.emplace_back(row.data(), length);
    return views;
}

void draw_facts(const sampling::DayPlan& plan, std::size_t days, Learnt& learnt) {
    const std::size_t draws = std::min(kDraws, days / kLanes * kLanes);
    learnt.score.assign(learnt.facts.size(), std::vector<double>(draws));
    for (std::size_t i = 0; i < learnt.facts.size(); ++i) {
        for (std::size_t at = 0; at < draws; at += kLanes) {
            plan.fill_knowledge_scores(learnt.facts[i], at, learnt.score[i].data() + at);
        }
    }
    // Facts are drawn before the flats, so they need no weight however the flats were
    // drawn.
    learnt.weight.assign(draws, 1.0);
}

}  // namespace

findings::KnowledgeModel fit_responses(
    const findings::StudySample& sample, const sampling::DayPlan& plan,
    const std::vector<InputId>& facts,
    const std::vector<std::pair<std::size_t, std::size_t>>& products,
    const std::vector<std::vector<double>>& responses) {
    findings::KnowledgeFit fit({facts.size(), products}, responses.size());
    Rows score(facts.size(), std::vector<double>(kRunOfDays));
    for (std::size_t first = 0; first < sample.days(); first += kRunOfDays) {
        const std::size_t length = std::min(kRunOfDays, sample.days() - first);
        for (std::size_t i = 0; i < facts.size(); ++i) {
            for (std::size_t at = 0; at < length; at += kLanes) {
                plan.fill_knowledge_scores(facts[i], first + at, score[i].data() + at);
            }
        }
        Views response;
        for (const auto& row : responses)
            response.emplace_back(row.data() + first, length);
        const Views scores = view(score, length);
        fit.add_block({scores, response, sample.design.weight.subspan(first, length)});
    }
    return fit.solve();
}

findings::KnowledgeModel select_setups(const findings::KnowledgeModel& whole,
                                       const std::vector<int>& kept) {
    findings::KnowledgeModel part = whole;
    part.coefficient = whole.coefficient(Eigen::all, kept);
    part.response_mean = whole.response_mean(kept);
    part.response_covariance = whole.response_covariance(kept, kept);
    for (auto& replicate : part.replicate) {
        replicate = Eigen::MatrixXd(replicate(Eigen::all, kept));
    }
    for (auto& mean : part.mean_replicate) mean = Eigen::VectorXd(mean(kept));
    return part;
}

std::vector<int> list_allowed(const scenario::Model& model) {
    std::vector<int> allowed;
    for (std::size_t s = 0; s < model.setups.size(); ++s) {
        if (!model.setups[s].vetoed) allowed.push_back(static_cast<int>(s));
    }
    return allowed;
}

Learnt learn_from_days(const findings::StudySample& sample, const sampling::DayPlan& plan,
                       int against, const BlockExecutor& run) {
    Learnt learnt;
    const std::vector<InputId> inputs = plan.knowledge_inputs();
    const auto strength =
        screen_inputs(sample, plan, inputs, static_cast<std::size_t>(against), run);
    std::vector<double> largest(inputs.size());
    for (const auto& of_setup : strength) {
        learnt.pair_facts.push_back(choose_facts(inputs, of_setup));
        for (std::size_t i = 0; i < inputs.size(); ++i) {
            largest[i] = std::max(largest[i], of_setup[i]);
        }
    }
    learnt.facts = choose_facts(inputs, largest);
    learnt.model = fit_responses(sample, plan, learnt.facts, {}, sample.judged_s);
    draw_facts(plan, sample.days(), learnt);
    return learnt;
}

void centre_on(const Findings& found, Learnt& learnt) {
    const auto against = static_cast<std::size_t>(found.against);
    const double base_s = found.setups[against].mean_judged_s.value;
    std::vector<double> mean_s(found.setups.size(), base_s);
    for (const PairFindings& pair : found.pairs) {
        mean_s[static_cast<std::size_t>(pair.setup)] = base_s + pair.mean_s.value;
    }
    for (std::size_t s = 0; s < mean_s.size(); ++s) {
        const auto at = static_cast<Eigen::Index>(s);
        const double moved = mean_s[s] - learnt.model.response_mean(at);
        learnt.model.response_mean(at) += moved;
        for (auto& mean : learnt.model.mean_replicate) mean(at) += moved;
    }
}

void add_knowledge(const Learnt& learnt, int against, PairFindings& pair) {
    const findings::Contrast contrast{static_cast<std::size_t>(pair.setup),
                                      static_cast<std::size_t>(against)};
    const Views scores = view(learnt.score, learnt.weight.size());
    const findings::KnowledgeSplit split =
        findings::split_difference(learnt.model, contrast);
    pair.knowledge_sd_s = split.knowledge_sd.value;
    pair.knowledge_sd_se_s = split.knowledge_sd.standard_error;
    pair.luck_sd_s = split.luck_sd;
    // luck^2 = day^2 - knowledge^2, and nearly all error is in the first.
    if (split.luck_sd > 0.0) {
        pair.luck_sd_se_s =
            pair.day_sd_s.standard_error * pair.day_sd_s.value / split.luck_sd;
    }
    const findings::Interval range =
        findings::could_be(learnt.model, contrast, {scores, learnt.weight});
    pair.could_be_s = {range.low, range.high};
}

}  // namespace flattail::study
