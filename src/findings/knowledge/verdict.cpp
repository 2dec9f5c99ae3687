#include "findings/knowledge/verdict.h"

#include <cmath>
#include <vector>

#include "base/expects.h"
#include "findings/sample/means.h"

namespace flattail::findings {
namespace {

Eigen::Index at(std::size_t index) { return static_cast<Eigen::Index>(index); }

double sign_of(Better better) { return better == Better::kSmaller ? 1 : -1; }

std::size_t second_best(const KnowledgeModel& model, std::size_t choice, Better better) {
    std::size_t second = choice;
    const auto cost = [&](std::size_t setup) {
        return sign_of(better) * model.response_mean[at(setup)];
    };
    for (std::size_t k = 0; k < static_cast<std::size_t>(model.response_mean.size()); ++k)
        if (k != choice && (second == choice || cost(k) < cost(second))) second = k;
    return second;
}

// 1 for every draw in which no setup beats the choice.
std::vector<double> agreement(const Eigen::MatrixXd& against_choice, Better better) {
    std::vector<double> agrees;
    for (Eigen::Index draw = 0; draw < against_choice.rows(); ++draw) {
        const bool holds =
            (sign_of(better) * against_choice.row(draw).array()).minCoeff() >= 0;
        agrees.push_back(holds ? 1 : 0);
    }
    return agrees;
}

// The draws are finitely many, and the model was fitted on finitely many days: both
// errors.
Estimate estimate_agreement(const KnowledgeModel& model, const Eigen::MatrixXd& terms,
                            std::span<const double> weight, const Verdict& verdict,
                            Better better) {
    const auto share = [&](std::size_t left_out) {
        ModelReading reading = read_everything(model);
        reading.left_out = left_out;
        const Eigen::MatrixXd expected =
            expected_against(model, verdict.choice, terms, reading);
        return estimate_mean(agreement(expected, better), Design{weight, {}});
    };
    std::vector<double> replicate;
    for (std::size_t group = 0; group < model.replicate.size(); ++group)
        replicate.push_back(share(group).value);
    Estimate all = share(kAllDays);
    all.standard_error = std::hypot(all.standard_error, jackknife_error(replicate));
    return all;
}

double share_beating(const KnowledgeModel& model, const Eigen::MatrixXd& terms,
                     std::span<const double> weight, const Verdict& verdict,
                     const VerdictRule& rule) {
    const Eigen::MatrixXd expected =
        expected_against(model, verdict.choice, terms, read_everything(model));
    const Eigen::MatrixXd one = expected.col(at(rule.against));
    return estimate_mean(agreement(one, rule.better), Design{weight, {}}).value;
}

// A margin within its own computing error says that too few days were ridden, and nothing
// about the setups. An unknown error counts as too large.
bool is_told_apart(const Estimate& margin) {
    return margin.value > normal_factor(kConfidence) * margin.standard_error;
}

}  // namespace

Strength grade(double share_agreeing, double margin, double matters) {
    if (margin < matters || margin <= 0) return Strength::kTossUp;
    if (share_agreeing >= kFirmShare) return Strength::kFirm;
    return share_agreeing >= kLeaningShare ? Strength::kLeaning : Strength::kTossUp;
}

Verdict reach_verdict(const KnowledgeModel& model, const KnowledgeDraws& draws,
                      const VerdictRule& rule) {
    FLATTAIL_EXPECTS(at(rule.against) < model.response_mean.size());
    const Eigen::MatrixXd terms = terms_of(model.features, draws);
    Verdict verdict;
    verdict.choice = best_on_average(model, rule.better);
    verdict.runner_up = second_best(model, verdict.choice, rule.better);
    const std::size_t rival =
        verdict.choice == rule.against ? verdict.runner_up : rule.against;
    const Estimate gain = split_difference(model, {rival, verdict.choice}).mean;
    verdict.margin = {sign_of(rule.better) * gain.value, gain.standard_error};
    verdict.share_agreeing =
        estimate_agreement(model, terms, draws.weight, verdict, rule.better);
    verdict.share_beats_against =
        share_beating(model, terms, draws.weight, verdict, rule);
    // The question is whether to change what is on the bike. Two good alternatives that
    // share the first place between them are no reason to stay with a setup that both
    // beat.
    const double share = verdict.choice == rule.against ? verdict.share_agreeing.value
                                                        : verdict.share_beats_against;
    if (is_told_apart(verdict.margin))
        verdict.strength = grade(share, verdict.margin.value, rule.matters);
    return verdict;
}

}  // namespace flattail::findings
