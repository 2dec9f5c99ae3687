#include "study/verdict.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "findings/knowledge/fit.h"
#include "findings/knowledge/verdict.h"
#include "findings/sample/means.h"
#include "study/rule.h"

namespace flattail::study {

namespace {

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
    const bool is_small = verdict.certainty == Certainty::kTossUp &&
                          verdict.share_agreeing >= findings::kLeaningShare;
    std::string text = fmt::format(
        "it beats {} in {:.0f} of 100 ways that what we don't know could turn out",
        name(model.decision.against), 100.0 * verdict.share_agreeing);
    if (is_small) text += ", but by too little to act on";
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
    std::vector<std::span<const double>> scores;
    for (const auto& row : learnt.score) scores.emplace_back(row);
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

// Among setups that are worse by less than what matters, one that more surely beats what
// is on the bike: a doubtful third with the same average hides no good advice.
Verdict prefer_surer(const Verdict& best, const Weighing& w) {
    const int against = w.model.decision.against;
    const bool is_asked = std::count(w.allowed.begin(), w.allowed.end(), against) > 0;
    if (w.rule.better == findings::Better::kLarger || !is_asked) return best;
    if (best.choice == against || best.certainty == Certainty::kFirm) return best;
    const Eigen::VectorXd& figure = w.fitted.response_mean;
    Verdict surest = best;
    for (const int s : w.allowed) {
        const bool is_near = figure(s) - figure(best.choice) <= w.rule.matters;
        if (s == against || s == best.choice || !is_near) continue;
        const Verdict verdict = weigh(w.fitted, w.rule, w.learnt, {s, against}, w.model);
        const bool is_surer = verdict.choice == s && verdict.certainty < surest.certainty;
        if (is_surer) surest = verdict;
    }
    if (surest.choice == best.choice) return best;
    surest.runner_up = best.choice;
    surest.reason = fmt::format(
        "as good as {} by what matters, and surer; {}",
        w.model.setups[static_cast<std::size_t>(best.choice)].name, surest.reason);
    return surest;
}

}  // namespace

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
        return prefer_surer(weigh(learnt.model, rule, learnt, allowed, model),
                            {learnt.model, rule, learnt, allowed, model});
    }
    const findings::KnowledgeModel fitted =
        fit_responses(sample, plan, learnt.facts, {}, rule.response);
    const Verdict likeliest = weigh(fitted, rule, learnt, allowed, model);
    const Verdict verdict =
        prefer_faster(likeliest, {fitted, rule, learnt, allowed, model});
    const bool is_chance = rule.better == findings::Better::kLarger;
    if (!is_chance) return prefer_surer(verdict, {fitted, rule, learnt, allowed, model});
    if (is_decided(judging, rule, verdict.choice)) return verdict;
    const RuleResponse mean = make_response(sample, model, scenario::RuleKind::kMean);
    Verdict fallback = prefer_surer(weigh(learnt.model, mean, learnt, allowed, model),
                                    {learnt.model, mean, learnt, allowed, model});
    fallback.reason = rule.words + " does not decide; by average time " + fallback.reason;
    return fallback;
}

}  // namespace flattail::study
