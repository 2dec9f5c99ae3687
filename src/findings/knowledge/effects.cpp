#include "findings/knowledge/effects.h"

#include <algorithm>
#include <cmath>

#include "base/expects.h"

namespace flattail::findings {
namespace {

// 90th percentile of the standard normal law; the 10th is its mirror image.
constexpr double kScoreAt90 = 1.2815515655446004;

Eigen::Index at(std::size_t index) { return static_cast<Eigen::Index>(index); }

double coefficient(const Eigen::MatrixXd& fit, const Contrast& contrast,
                   std::size_t term) {
    return fit(at(term), at(contrast.a)) - fit(at(term), at(contrast.b));
}

// Any figure of a fit, with the jackknife's error.
template <class Figure>
Estimate with_error(const KnowledgeModel& model, Figure figure) {
    std::vector<double> replicate;
    for (const Eigen::MatrixXd& fit : model.replicate) replicate.push_back(figure(fit));
    return {figure(model.coefficient), jackknife_error(replicate)};
}

// Variance of each term's part, by the orthogonality of Hermite polynomials: E z^2 = 1,
// E (z^2 - 1)^2 = 2, E (z_i z_j)^2 = 1.
double term_variance(const KnowledgeFeatures& features, std::size_t term) {
    const bool is_square = term > features.inputs && term <= 2 * features.inputs;
    return is_square ? 2 : 1;
}

// Facts a term is made of; equal for terms of one fact.
std::pair<std::size_t, std::size_t> facts_of(const KnowledgeFeatures& features,
                                             std::size_t term) {
    if (term > 2 * features.inputs)
        return features.products[term - 1 - 2 * features.inputs];
    const std::size_t input = (term - 1) % features.inputs;
    return {input, input};
}

std::vector<double> term_noise(const KnowledgeModel& model, const Contrast& contrast) {
    std::vector<double> noise(model.features.size());
    for (std::size_t term = 1; term < noise.size(); ++term) {
        const double error = with_error(model, [&](const Eigen::MatrixXd& fit) {
                                 return coefficient(fit, contrast, term);
                             }).standard_error;
        noise[term] = error * error;
    }
    return noise;
}

enum class Part { kAlone, kTouched };

double share_of(const KnowledgeFeatures& features, const Eigen::VectorXd& slope,
                const std::vector<double>& noise, const std::vector<bool>& is_in_group,
                Part wanted) {
    double part = 0, all = 0;
    for (std::size_t term = 1; term < features.size(); ++term) {
        const auto [i, j] = facts_of(features, term);
        const double b = slope[at(term)];
        const double variance = term_variance(features, term) * (b * b - noise[term]);
        const bool counts = wanted == Part::kAlone ? is_in_group[i] && is_in_group[j]
                                                   : is_in_group[i] || is_in_group[j];
        all += variance;
        if (counts) part += variance;
    }
    return all > 0 ? std::clamp(part / all, 0.0, 1.0) : 0;
}

double first_order_variance(const KnowledgeModel& model, const Contrast& contrast,
                            std::size_t input) {
    const auto& fit = model.coefficient;
    const double b = coefficient(fit, contrast, model.features.linear(input));
    const double c = coefficient(fit, contrast, model.features.square(input));
    return b * b + 2 * c * c;
}

}  // namespace

std::vector<InputEffect> input_effects(const KnowledgeModel& model,
                                       const Contrast& contrast) {
    std::vector<InputEffect> effects;
    for (std::size_t input = 0; input < model.features.inputs; ++input) {
        const auto expected_at = [&](const Eigen::MatrixXd& fit, double z) {
            return coefficient(fit, contrast, 0) +
                   coefficient(fit, contrast, model.features.linear(input)) * z +
                   coefficient(fit, contrast, model.features.square(input)) * (z * z - 1);
        };
        InputEffect effect;
        effect.input = input;
        effect.at_low = with_error(model, [&](const Eigen::MatrixXd& fit) {
            return expected_at(fit, -kScoreAt90);
        });
        effect.at_high = with_error(model, [&](const Eigen::MatrixXd& fit) {
            return expected_at(fit, kScoreAt90);
        });
        effect.swing = with_error(model, [&](const Eigen::MatrixXd& fit) {
            return expected_at(fit, kScoreAt90) - expected_at(fit, -kScoreAt90);
        });
        effects.push_back(effect);
    }
    return effects;
}

VarianceShare variance_share(const KnowledgeModel& model, const Contrast& contrast,
                             std::span<const std::size_t> group) {
    std::vector<bool> is_in_group(model.features.inputs, false);
    for (const std::size_t input : group) {
        FLATTAIL_EXPECTS(input < model.features.inputs);
        is_in_group[input] = true;
    }
    const std::vector<double> noise = term_noise(model, contrast);
    const auto share = [&](Part wanted) {
        return with_error(model, [&](const Eigen::MatrixXd& fit) {
            const Eigen::VectorXd slope =
                fit.col(at(contrast.a)) - fit.col(at(contrast.b));
            return share_of(model.features, slope, noise, is_in_group, wanted);
        });
    };
    return {share(Part::kAlone), share(Part::kTouched)};
}

std::vector<std::pair<std::size_t, std::size_t>> choose_products(
    const KnowledgeModel& model, std::size_t against, std::size_t count) {
    std::vector<std::pair<double, std::size_t>> ranked;
    for (std::size_t input = 0; input < model.features.inputs; ++input) {
        double variance = 0;
        for (Eigen::Index setup = 0; setup < model.coefficient.cols(); ++setup)
            variance += first_order_variance(
                model, {static_cast<std::size_t>(setup), against}, input);
        ranked.emplace_back(-variance, input);
    }
    std::sort(ranked.begin(), ranked.end());
    ranked.resize(std::min(count, ranked.size()));
    std::vector<std::pair<std::size_t, std::size_t>> products;
    for (std::size_t i = 0; i < ranked.size(); ++i)
        for (std::size_t j = i + 1; j < ranked.size(); ++j)
            products.push_back(std::minmax(ranked[i].second, ranked[j].second));
    std::sort(products.begin(), products.end());
    return products;
}

}  // namespace flattail::findings
