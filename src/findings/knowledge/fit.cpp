#include "findings/knowledge/fit.h"

#include <algorithm>
#include <utility>

#include "base/expects.h"

namespace flattail::findings {
namespace {

// A fact that never varies makes its terms zero or constant. This much of a day's weight
// per unit of weight on the diagonal lets their coefficients be zero instead of
// undefined; real coefficients move by the same tiny share.
constexpr double kRidge = 1e-9;

Eigen::MatrixXd symmetric(const Eigen::MatrixXd& lower) {
    return lower.selfadjointView<Eigen::Lower>();
}

Eigen::MatrixXd solve_normal_equations(const Eigen::MatrixXd& gram, Eigen::Index terms) {
    Eigen::MatrixXd left = gram.topLeftCorner(terms, terms);
    left.diagonal().tail(terms - 1).array() += kRidge * gram(0, 0);
    return left.ldlt().solve(gram.topRightCorner(terms, gram.cols() - terms));
}

Eigen::VectorXd means_of_responses(const Eigen::MatrixXd& gram, Eigen::Index terms) {
    return gram.row(0).tail(gram.cols() - terms).transpose() / gram(0, 0);
}

}  // namespace

KnowledgeFit::KnowledgeFit(KnowledgeFeatures features, std::size_t responses)
    : features_(std::move(features)), responses_(responses) {
    FLATTAIL_EXPECTS(responses > 0);
    const auto width = static_cast<Eigen::Index>(features_.size() + responses);
    gram_.assign(kJackknifeGroups, Eigen::MatrixXd::Zero(width, width));
}

void KnowledgeFit::add_block(const KnowledgeBlock& block) {
    FLATTAIL_EXPECTS(block.score.size() == features_.inputs);
    FLATTAIL_EXPECTS(block.response.size() == responses_);
    for (std::size_t first = 0, end = 0; first < block.weight.size(); first = end) {
        const std::size_t left_in_run = kJackknifeRun - days_ % kJackknifeRun;
        end = std::min(first + left_in_run, block.weight.size());
        add_run(block, first, end - first);
        days_ += end - first;
    }
}

void KnowledgeFit::add_run(const KnowledgeBlock& block, std::size_t first,
                           std::size_t days) {
    rows_.resize(static_cast<Eigen::Index>(days),
                 static_cast<Eigen::Index>(features_.size() + responses_));
    const auto copy = [&](std::size_t column, std::span<const double> from) {
        std::copy_n(from.data() + first, days,
                    rows_.col(static_cast<Eigen::Index>(column)).data());
    };
    for (std::size_t i = 0; i < features_.inputs; ++i)
        copy(features_.linear(i), block.score[i]);
    for (std::size_t k = 0; k < responses_; ++k)
        copy(features_.size() + k, block.response[k]);
    fill_derived_terms();
    // The column of ones carries the weights while the rest is scaled by their roots.
    copy(0, block.weight);
    rows_.col(0) = rows_.col(0).cwiseSqrt();
    rows_.rightCols(rows_.cols() - 1).array().colwise() *= rows_.col(0).array();
    const std::size_t group = days_ / kJackknifeRun % kJackknifeGroups;
    gram_[group].selfadjointView<Eigen::Lower>().rankUpdate(rows_.transpose());
}

void KnowledgeFit::fill_derived_terms() {
    const auto column = [this](std::size_t term) {
        return rows_.col(static_cast<Eigen::Index>(term));
    };
    for (std::size_t i = 0; i < features_.inputs; ++i)
        column(features_.square(i)) = column(features_.linear(i)).array().square() - 1;
    for (std::size_t pair = 0; pair < features_.products.size(); ++pair) {
        const auto [i, j] = features_.products[pair];
        column(features_.product(pair)) =
            column(features_.linear(i)).cwiseProduct(column(features_.linear(j)));
    }
}

void KnowledgeFit::merge(const KnowledgeFit& other) {
    FLATTAIL_EXPECTS(other.features_.size() == features_.size());
    FLATTAIL_EXPECTS(other.responses_ == responses_);
    FLATTAIL_EXPECTS(days_ % kJackknifeRun == 0);
    const std::size_t runs = days_ / kJackknifeRun;
    for (std::size_t group = 0; group < kJackknifeGroups; ++group)
        gram_[(runs + group) % kJackknifeGroups] += other.gram_[group];
    days_ += other.days_;
}

KnowledgeModel KnowledgeFit::solve() const {
    FLATTAIL_EXPECTS(days_ > 0);
    const auto terms = static_cast<Eigen::Index>(features_.size());
    const auto setups = static_cast<Eigen::Index>(responses_);
    Eigen::MatrixXd all = Eigen::MatrixXd::Zero(terms + setups, terms + setups);
    for (const Eigen::MatrixXd& gram : gram_) all += gram;

    KnowledgeModel model;
    model.features = features_;
    for (const Eigen::MatrixXd& gram : gram_) {
        const Eigen::MatrixXd rest = symmetric(all - gram);
        // A short stream fills fewer groups: leaving out an empty one changes nothing,
        // leaving out the only one leaves nothing.
        if (gram(0, 0) == 0 || rest(0, 0) <= 0) continue;
        model.replicate.push_back(solve_normal_equations(rest, terms));
        model.mean_replicate.push_back(means_of_responses(rest, terms));
    }
    all = symmetric(all);
    model.coefficient = solve_normal_equations(all, terms);
    model.response_mean = means_of_responses(all, terms);
    model.term_mean = all.row(0).head(terms).transpose() / all(0, 0);
    model.term_covariance = all.topLeftCorner(terms, terms) / all(0, 0) -
                            model.term_mean * model.term_mean.transpose();
    model.response_covariance = all.bottomRightCorner(setups, setups) / all(0, 0) -
                                model.response_mean * model.response_mean.transpose();
    return model;
}

}  // namespace flattail::findings
