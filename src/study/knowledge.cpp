#include "study/knowledge.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "findings/knowledge/fit.h"
#include "findings/knowledge/verdict.h"
#include "findings/sample/means.h"
#include "study/rule.h"

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

Certainty to_certainty(findings::Strength strength) {
    switch (strength) {
        case findings::Strength::kFirm:
            return Certainty::kFirm;
        case findings::Strength::kLeaning:
            return Certainty::kLeaning;
        case findings::Strength::kTossUp:
            break;
    }
    return Certainty::kTossUp;
}

std::string explain(const findings::Verdict& found, const Verdict& verdict,
                    const scenario::Model& model) {
    const auto name = [&](int s) {
        return model.setups[static_cast<std::size_t>(s)].name;
    };
    if (found.choice == found.runner_up) return "";
    if (verdict.choice == model.decision.against) {
        return fmt::format(
            "nothing beats it in {:.0f} of 100 ways that what we don't know could turn "
            "out",
            100.0 * verdict.share_best);
    }
    std::string text = fmt::format(
        "it beats {} in {:.0f} of 100 ways that what we don't know could turn out",
        name(model.decision.against), 100.0 * verdict.share_agreeing);
    if (verdict.share_best < findings::kLeaningShare) {
        text += fmt::format("; best of all in {:.0f}, with {} next",
                            100.0 * verdict.share_best, name(verdict.runner_up));
    }
    return text;
}

Verdict weigh(const findings::KnowledgeModel& fitted, const RuleResponse& response,
              const Learnt& learnt, const std::vector<int>& allowed,
              const scenario::Model& model) {
    const auto against =
        std::find(allowed.begin(), allowed.end(), model.decision.against);
    findings::VerdictRule rule;
    rule.better = response.better;
    rule.matters = response.matters;
    rule.against = against == allowed.end()
                       ? 0
                       : static_cast<std::size_t>(against - allowed.begin());
    const Views scores = view(learnt.score, learnt.weight.size());
    const findings::Verdict found = findings::reach_verdict(
        select_setups(fitted, allowed), {scores, learnt.weight}, rule);
    Verdict verdict;
    verdict.rule = response.words;
    verdict.choice = allowed[found.choice];
    verdict.certainty = to_certainty(found.strength);
    const bool stays = found.choice == rule.against;
    verdict.share_agreeing =
        stays ? found.share_agreeing.value : found.share_beats_against;
    verdict.share_best = found.share_agreeing.value;
    verdict.runner_up = allowed[found.runner_up];
    verdict.reason = explain(found, verdict, model);
    return verdict;
}

// Whether the choice's chance differs from that of the setup compared with, or of every
// other one when the choice is that setup: the paired 95 % interval does not contain 0.
bool is_decided(const Judging& judging, const RuleResponse& rule, int choice) {
    const findings::StudySample& sample = judging.sample;
    const auto c = static_cast<std::size_t>(choice);
    const auto a = static_cast<std::size_t>(judging.model.decision.against);
    const double z = findings::normal_factor(findings::kConfidence);
    for (const int one : judging.allowed) {
        const auto s = static_cast<std::size_t>(one);
        if (s == c || (c != a && s != a)) continue;
        std::vector<double> difference(sample.days());
        for (std::size_t d = 0; d < difference.size(); ++d) {
            difference[d] = rule.response[c][d] - rule.response[s][d];
        }
        const findings::Estimate mean =
            findings::estimate_mean(difference, sample.design);
        if (std::abs(mean.value) <= z * mean.standard_error) return false;
    }
    return true;
}

// What a choice is weighed with.
struct Weighing {
    const findings::KnowledgeModel& fitted;
    const RuleResponse& rule;
    const Learnt& learnt;
    const std::vector<int>& allowed;
    const scenario::Model& model;
};

// Among setups whose chances differ by less than what matters, the one with the best
// average time: a finish in 1,000 is not worth minutes on every day.
Verdict prefer_faster(const Verdict& likeliest, const Weighing& w) {
    if (w.rule.better != findings::Better::kLarger) return likeliest;
    const Eigen::VectorXd& chance = w.fitted.response_mean;
    const Eigen::VectorXd& time_s = w.learnt.model.response_mean;
    int fastest = likeliest.choice;
    for (const int s : w.allowed) {
        const bool is_near = chance(likeliest.choice) - chance(s) <= w.rule.matters;
        if (is_near && time_s(s) < time_s(fastest)) fastest = s;
    }
    if (fastest == likeliest.choice) return likeliest;
    std::vector<int> two{fastest};
    const int against = w.model.decision.against;
    const auto found = std::find(w.allowed.begin(), w.allowed.end(), against);
    if (fastest != against && found != w.allowed.end()) two.push_back(against);
    Verdict verdict = weigh(w.fitted, w.rule, w.learnt, two, w.model);
    const std::string& near =
        w.model.setups[static_cast<std::size_t>(likeliest.choice)].name;
    const std::string as_good = "as good as " + near + " by that, and faster";
    verdict.reason = verdict.reason.empty() ? as_good : as_good + "; " + verdict.reason;
    return verdict;
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

Verdict reach_verdict(const Learnt& learnt, const Judging& judging) {
    const auto& [sample, plan, model, allowed] = judging;
    if (allowed.empty()) {
        Verdict none;
        none.choice = -1;
        none.rule = "no rule";
        none.reason = "every setup breaks a rule that is never traded against time";
        return none;
    }
    const scenario::RuleKind wanted = model.decision.rule;
    RuleResponse rule = make_response(sample, model, wanted);
    if (wanted == scenario::RuleKind::kMean) {
        return weigh(learnt.model, rule, learnt, allowed, model);
    }
    const findings::KnowledgeModel fitted =
        fit_responses(sample, plan, learnt.facts, {}, rule.response);
    const Verdict likeliest = weigh(fitted, rule, learnt, allowed, model);
    const Verdict verdict =
        prefer_faster(likeliest, {fitted, rule, learnt, allowed, model});
    const bool is_chance = rule.better == findings::Better::kLarger;
    if (!is_chance || is_decided(judging, rule, verdict.choice)) return verdict;
    const RuleResponse mean = make_response(sample, model, scenario::RuleKind::kMean);
    Verdict fallback = weigh(learnt.model, mean, learnt, allowed, model);
    fallback.reason = rule.words + " does not decide; by average time " + fallback.reason;
    return fallback;
}

}  // namespace flattail::study
