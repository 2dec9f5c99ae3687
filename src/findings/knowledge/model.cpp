#include "findings/knowledge/model.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/expects.h"
#include "findings/sample/weighted_sample.h"

namespace flattail::findings {
namespace {

// The 5th and 95th percentile: "9 in 10".
constexpr double kCouldBeLow = 0.05;
constexpr double kCouldBeHigh = 0.95;

Eigen::Index at(std::size_t index) { return static_cast<Eigen::Index>(index); }

Eigen::VectorXd kept_terms(const std::vector<double>& kept) {
    return Eigen::Map<const Eigen::VectorXd>(kept.data(), at(kept.size()));
}

Eigen::VectorXd coefficients(const Eigen::MatrixXd& fit, const Contrast& contrast) {
    return fit.col(at(contrast.a)) - fit.col(at(contrast.b));
}

double mean_of(const Eigen::VectorXd& means, const Contrast& contrast) {
    return means[at(contrast.a)] - means[at(contrast.b)];
}

double variance_of(const KnowledgeModel& model, const Eigen::VectorXd& coefficient) {
    return coefficient.dot(model.term_covariance * coefficient);
}

// Variance of fitted differences, and the part of it that is estimation noise: the mean
// square distance between the fits with a group left out and the full one.
struct FittedSpread {
    double variance = 0, noise = 0;

    double knowledge_variance() const { return std::max(variance - noise, 0.0); }
    double kept_share() const {
        return variance > 0 ? std::sqrt(knowledge_variance() / variance) : 0;
    }
};

FittedSpread measure_spread(const KnowledgeModel& model, const Contrast& contrast,
                            const Eigen::VectorXd& kept) {
    const Eigen::VectorXd full = coefficients(model.coefficient, contrast);
    FittedSpread spread;
    spread.variance = variance_of(model, full.cwiseProduct(kept));
    for (const Eigen::MatrixXd& fit : model.replicate) {
        const Eigen::VectorXd step = coefficients(fit, contrast) - full;
        spread.noise += variance_of(model, step.cwiseProduct(kept));
    }
    const auto groups = static_cast<double>(model.replicate.size());
    spread.noise *= (groups - 1) / groups;
    // Without groups to leave out nothing says that any of the spread is real.
    if (model.replicate.empty()) spread.noise = spread.variance;
    return spread;
}

double variance_of_response(const KnowledgeModel& model, const Contrast& contrast) {
    const auto& c = model.response_covariance;
    const Eigen::Index a = at(contrast.a), b = at(contrast.b);
    return c(a, a) + c(b, b) - 2 * c(a, b);
}

}  // namespace

double jackknife_error(std::span<const double> replicate) {
    if (replicate.empty()) return std::numeric_limits<double>::quiet_NaN();
    const auto groups = static_cast<double>(replicate.size());
    double sum = 0;
    for (const double value : replicate) sum += value;
    double squares = 0;
    for (const double value : replicate) {
        const double step = value - sum / groups;
        squares += step * step;
    }
    return std::sqrt(squares * (groups - 1) / groups);
}

KnowledgeSplit split_difference(const KnowledgeModel& model, const Contrast& contrast) {
    const Eigen::VectorXd ones = Eigen::VectorXd::Ones(at(model.features.size()));
    const FittedSpread spread = measure_spread(model, contrast, ones);
    std::vector<double> mean, sd;
    for (std::size_t group = 0; group < model.replicate.size(); ++group) {
        const double fitted =
            variance_of(model, coefficients(model.replicate[group], contrast));
        sd.push_back(std::sqrt(std::max(fitted - spread.noise, 0.0)));
        mean.push_back(mean_of(model.mean_replicate[group], contrast));
    }
    const double known = spread.knowledge_variance();
    KnowledgeSplit split;
    split.mean = {mean_of(model.response_mean, contrast), jackknife_error(mean)};
    split.knowledge_sd = {std::sqrt(known), jackknife_error(sd)};
    split.luck_sd =
        std::sqrt(std::max(variance_of_response(model, contrast) - known, 0.0));
    split.kept_share = spread.kept_share();
    return split;
}

Eigen::MatrixXd terms_of(const KnowledgeFeatures& features, const KnowledgeDraws& draws) {
    FLATTAIL_EXPECTS(draws.score.size() == features.inputs);
    const Eigen::Index count = at(draws.weight.size());
    Eigen::MatrixXd terms(count, at(features.size()));
    terms.col(0).setOnes();
    for (std::size_t i = 0; i < features.inputs; ++i) {
        const Eigen::Map<const Eigen::VectorXd> z(draws.score[i].data(), count);
        terms.col(at(features.linear(i))) = z;
        terms.col(at(features.square(i))) = z.array().square() - 1;
    }
    for (std::size_t pair = 0; pair < features.products.size(); ++pair) {
        const auto [i, j] = features.products[pair];
        terms.col(at(features.product(pair))) =
            terms.col(at(features.linear(i)))
                .cwiseProduct(terms.col(at(features.linear(j))));
    }
    return terms;
}

ModelReading read_everything(const KnowledgeModel& model) {
    return {std::vector<double>(model.features.size(), 1), kAllDays};
}

Eigen::MatrixXd expected_against(const KnowledgeModel& model, std::size_t base,
                                 const Eigen::MatrixXd& terms,
                                 const ModelReading& reading) {
    const bool is_full = reading.left_out == kAllDays;
    const auto& fit = is_full ? model.coefficient : model.replicate[reading.left_out];
    const auto& means =
        is_full ? model.response_mean : model.mean_replicate[reading.left_out];
    FLATTAIL_EXPECTS(reading.kept.size() == model.features.size());
    const Eigen::VectorXd kept = kept_terms(reading.kept);
    Eigen::MatrixXd slope = Eigen::MatrixXd::Zero(fit.rows(), fit.cols());
    Eigen::RowVectorXd start = Eigen::RowVectorXd::Zero(fit.cols());
    for (std::size_t setup = 0; setup < static_cast<std::size_t>(fit.cols()); ++setup) {
        if (setup == base) continue;
        const Contrast contrast{setup, base};
        const double shrink = measure_spread(model, contrast, kept).kept_share();
        const Eigen::VectorXd steep =
            shrink * coefficients(fit, contrast).cwiseProduct(kept);
        slope.col(at(setup)) = steep;
        start[at(setup)] = mean_of(means, contrast) - model.term_mean.dot(steep);
    }
    Eigen::MatrixXd expected = terms * slope;
    expected.rowwise() += start;
    return expected;
}

std::vector<double> expected_differences(const KnowledgeModel& model,
                                         const Contrast& contrast,
                                         const KnowledgeDraws& draws) {
    const Eigen::MatrixXd expected = expected_against(
        model, contrast.b, terms_of(model.features, draws), read_everything(model));
    const auto column = expected.col(at(contrast.a));
    return {column.begin(), column.end()};
}

Interval could_be(const KnowledgeModel& model, const Contrast& contrast,
                  const KnowledgeDraws& draws) {
    const std::vector<double> expected = expected_differences(model, contrast, draws);
    const WeightedSample sample(expected, Design{draws.weight, {}});
    return {sample.quantile(kCouldBeLow), sample.quantile(kCouldBeHigh)};
}

std::size_t best_on_average(const KnowledgeModel& model, Better better) {
    Eigen::Index best = 0;
    if (better == Better::kSmaller)
        model.response_mean.minCoeff(&best);
    else
        model.response_mean.maxCoeff(&best);
    return static_cast<std::size_t>(best);
}

}  // namespace flattail::findings
