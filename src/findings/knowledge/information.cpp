#include "findings/knowledge/information.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <vector>

#include "base/expects.h"
#include "findings/sample/means.h"

namespace flattail::findings {
namespace {

double sign_of(Better better) { return better == Better::kSmaller ? -1 : 1; }

void expect_whole([[maybe_unused]] const StatesOfKnowledge& states) {
    FLATTAIL_EXPECTS(states.setups > 0);
    FLATTAIL_EXPECTS(states.expected.size() == states.probability.size() * states.setups);
}

// How much the best setup of each draw is better than the one chosen without looking.
std::vector<double> gains_over(const Eigen::MatrixXd& against_choice, Better better) {
    std::vector<double> gain;
    for (Eigen::Index draw = 0; draw < against_choice.rows(); ++draw)
        gain.push_back((sign_of(better) * against_choice.row(draw).array()).maxCoeff());
    return gain;
}

}  // namespace

double value_of_knowing_group(const StatesOfKnowledge& states,
                              std::span<const std::uint8_t> group, Better better) {
    expect_whole(states);
    FLATTAIL_EXPECTS(group.size() == states.probability.size());
    const std::size_t setups = states.setups;
    std::vector<double> by_group(256 * setups), overall(setups);
    double total = 0;
    for (std::size_t state = 0; state < group.size(); ++state) {
        total += states.probability[state];
        for (std::size_t k = 0; k < setups; ++k) {
            const double worth = sign_of(better) * states.probability[state] *
                                 states.expected[state * setups + k];
            by_group[group[state] * setups + k] += worth;
            overall[k] += worth;
        }
    }
    double knowing = 0;
    for (auto first = by_group.begin(); first != by_group.end();
         first += static_cast<std::ptrdiff_t>(setups))
        knowing += *std::max_element(first, first + static_cast<std::ptrdiff_t>(setups));
    const double blind = *std::max_element(overall.begin(), overall.end());
    return std::max(knowing - blind, 0.0) / total;
}

double value_of_knowing(const StatesOfKnowledge& states, Better better) {
    expect_whole(states);
    const std::size_t setups = states.setups;
    double knowing = 0, total = 0;
    std::vector<double> overall(setups), worth(setups);
    for (std::size_t state = 0; state < states.probability.size(); ++state) {
        total += states.probability[state];
        for (std::size_t k = 0; k < setups; ++k) {
            worth[k] = sign_of(better) * states.probability[state] *
                       states.expected[state * setups + k];
            overall[k] += worth[k];
        }
        knowing += *std::max_element(worth.begin(), worth.end());
    }
    const double blind = *std::max_element(overall.begin(), overall.end());
    return std::max(knowing - blind, 0.0) / total;
}

double value_of_knowing_normal(double mean_difference, double sd) {
    FLATTAIL_EXPECTS(sd >= 0);
    if (sd == 0) return 0;
    const boost::math::normal standard;
    const double u = std::fabs(mean_difference) / sd;
    return sd * (pdf(standard, u) - u * cdf(complement(standard, u)));
}

Estimate value_of_learning(const KnowledgeModel& model, const KnowledgeDraws& draws,
                           std::span<const double> known, Better better) {
    const Eigen::MatrixXd terms = terms_of(model.features, draws);
    const std::size_t choice = best_on_average(model, better);
    const std::vector<double> kept = learnt_share(model.features, known);
    const auto gain = [&](std::size_t left_out) {
        const ModelReading reading{kept, left_out};
        const Eigen::MatrixXd expected = expected_against(model, choice, terms, reading);
        return estimate_mean(gains_over(expected, better), Design{draws.weight, {}});
    };
    std::vector<double> replicate;
    for (std::size_t group = 0; group < model.replicate.size(); ++group)
        replicate.push_back(gain(group).value);
    Estimate all = gain(kAllDays);
    all.standard_error = std::hypot(all.standard_error, jackknife_error(replicate));
    return all;
}

double share_learnt_by_measuring(double prior_sd, double error_sd) {
    FLATTAIL_EXPECTS(prior_sd > 0 && error_sd >= 0);
    const double prior = prior_sd * prior_sd;
    return prior / (prior + error_sd * error_sd);
}

double share_learnt_by_riding(double prior_distance_m, double ridden_distance_m) {
    FLATTAIL_EXPECTS(prior_distance_m > 0 && ridden_distance_m >= 0);
    return ridden_distance_m / (prior_distance_m + ridden_distance_m);
}

}  // namespace flattail::findings
