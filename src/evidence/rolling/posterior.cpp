#include "evidence/rolling/posterior.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <map>

#include "base/expects.h"

namespace flattail::evidence {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// The scan for where tau can lie: five decades about the scale of its prior.
constexpr int kScanPoints = 41;
constexpr double kScanFirst = 1e-3;
constexpr double kScanDecades = 5.0;
// Log density below its maximum at which the rest is left out: e^-30 = 1e-13.
constexpr double kLeftOut = 30.0;
// Panels of 15 Gauss-Legendre points, finer towards zero, where the density bends most.
constexpr int kPanels = 6;
constexpr double kGrading = 3.0;
using Rule = boost::math::quadrature::gauss<double, 15>;

struct GivenTau {
    double log_density = 0.0;
    VectorXd mean;
    MatrixXd covariance;
};

// One laboratory with everything that does not depend on tau.
struct Laboratory {
    VectorXd value;
    VectorXd variance;
    MatrixXd
        same_product;  // 1 where two cells share their product: one specimen, one rig
    MatrixXd level;    // [cell, block]: 1 where the cell lies in the block
    MatrixXd product;  // [cell, product - 1]
};

Laboratory lay_out(const std::vector<Cell>& cells, int products) {
    std::vector<int> blocks;
    for (const Cell& cell : cells) blocks.push_back(cell.block);
    std::sort(blocks.begin(), blocks.end());
    blocks.erase(std::unique(blocks.begin(), blocks.end()), blocks.end());
    const auto size = static_cast<Index>(cells.size());
    Laboratory lab;
    lab.value = lab.variance = VectorXd::Zero(size);
    lab.same_product = MatrixXd::Zero(size, size);
    lab.level = MatrixXd::Zero(size, static_cast<Index>(blocks.size()));
    lab.product = MatrixXd::Zero(size, products - 1);
    for (Index i = 0; i < size; ++i) {
        const Cell& cell = cells[static_cast<std::size_t>(i)];
        lab.value(i) = cell.value;
        lab.variance(i) = cell.variance;
        const auto at = std::lower_bound(blocks.begin(), blocks.end(), cell.block);
        lab.level(i, at - blocks.begin()) = 1.0;
        if (cell.product > 0) lab.product(i, cell.product - 1) = 1.0;
        for (Index j = 0; j < size; ++j) {
            const bool same = cells[static_cast<std::size_t>(j)].product == cell.product;
            lab.same_product(i, j) = same ? 1.0 : 0.0;
        }
    }
    return lab;
}

using Laboratories = std::vector<Laboratory>;

Laboratories sort_by_laboratory(const std::vector<Cell>& cells, int products) {
    std::map<int, std::vector<Cell>> sorted;
    for (const Cell& cell : cells) sorted[cell.laboratory].push_back(cell);
    Laboratories laboratories;
    for (const auto& [number, own] : sorted) {
        laboratories.push_back(lay_out(own, products));
    }
    return laboratories;
}

// Precision, precision times mean, and log likelihood so far, the level of each block
// integrated out over a flat prior.
struct Sums {
    MatrixXd precision;
    VectorXd weighted;
    double log_likelihood = 0.0;
};

double half_log_determinant(const Eigen::LLT<MatrixXd>& factor) {
    return factor.matrixLLT().diagonal().array().log().sum();
}

void add_laboratory(const Laboratory& lab, double extra, Sums& sums) {
    MatrixXd covariance = extra * lab.same_product;
    covariance.diagonal() += lab.variance;
    const Eigen::LLT<MatrixXd> factor(covariance);
    const MatrixXd level = factor.solve(lab.level);
    const Eigen::LLT<MatrixXd> of_level(lab.level.transpose() * level);
    const auto without_level = [&](const MatrixXd& columns) {
        const MatrixXd solved = factor.solve(columns);
        return MatrixXd(solved - level * of_level.solve(lab.level.transpose() * solved));
    };
    const MatrixXd product = without_level(lab.product);
    sums.precision += lab.product.transpose() * product;
    sums.weighted += product.transpose() * lab.value;
    sums.log_likelihood -= half_log_determinant(factor) + half_log_determinant(of_level) +
                           0.5 * lab.value.dot(without_level(lab.value).col(0));
}

// Products lie about a common level with variance sd^2 / 2 each, so that the prior of a
// difference does not depend on which product the others are compared with.
MatrixXd make_prior_precision(Index size, double difference_sd) {
    const double each = 2.0 / (difference_sd * difference_sd);
    const double shared = each / (static_cast<double>(size) + 1.0);
    return each * MatrixXd::Identity(size, size) - shared * MatrixXd::Ones(size, size);
}

GivenTau solve_given_tau(const Laboratories& laboratories, const MatrixXd& prior,
                         const RollingPrior& belief, double tau) {
    Sums sums{prior, VectorXd::Zero(prior.rows()), 0.0};
    const double extra = 0.5 * tau * tau + belief.specimen_sd * belief.specimen_sd;
    for (const Laboratory& lab : laboratories) add_laboratory(lab, extra, sums);
    const Eigen::LLT<MatrixXd> factor(sums.precision);
    GivenTau given;
    given.mean = factor.solve(sums.weighted);
    given.covariance = factor.solve(MatrixXd::Identity(prior.rows(), prior.rows()));
    const double ratio = tau / belief.between_laboratories;
    given.log_density = sums.log_likelihood + 0.5 * sums.weighted.dot(given.mean) -
                        half_log_determinant(factor) - 0.5 * ratio * ratio;
    return given;
}

struct Reach {
    double low = 0.0;
    double high = 0.0;

    double edge(int panel) const {
        return low + (high - low) * std::pow(double(panel) / kPanels, kGrading);
    }
};

// Where the density of tau is not negligible.
template <class Density>
Reach find_reach(const Density& log_density, double scale) {
    std::vector<double> tau{0.0}, log{log_density(0.0)};
    for (int i = 0; i < kScanPoints; ++i) {
        tau.push_back(scale * kScanFirst *
                      std::pow(10.0, kScanDecades * i / (kScanPoints - 1)));
        log.push_back(log_density(tau.back()));
    }
    const double least = *std::max_element(log.begin(), log.end()) - kLeftOut;
    std::size_t first = 0, last = tau.size() - 1;
    while (log[first] < least) ++first;
    while (log[last] < least) --last;
    return {tau[first > 0 ? first - 1 : 0], tau[std::min(last + 1, tau.size() - 1)]};
}

// Points and weights of the rule on one panel; Boost keeps the half of them that is not
// negative.
template <class Visit>
void visit_panel(double low, double high, const Visit& visit) {
    const double middle = 0.5 * (low + high), half = 0.5 * (high - low);
    for (std::size_t i = 0; i < Rule::abscissa().size(); ++i) {
        const double x = half * Rule::abscissa()[i], w = half * Rule::weights()[i];
        if (x > 0.0) visit(middle - x, w);
        visit(middle + x, w);
    }
}

double normal_cdf(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

}  // namespace

RollingPosterior::RollingPosterior(const std::vector<Cell>& cells, int products,
                                   const RollingPrior& prior) {
    FLATTAIL_EXPECTS(products >= 2 && prior.difference_sd > 0.0);
    FLATTAIL_EXPECTS(prior.between_laboratories > 0.0 && prior.specimen_sd >= 0.0);
    const Laboratories laboratories = sort_by_laboratory(cells, products);
    const MatrixXd precision = make_prior_precision(products - 1, prior.difference_sd);
    const auto solve = [&](double tau) {
        return solve_given_tau(laboratories, precision, prior, tau);
    };
    const Reach reach = find_reach([&](double tau) { return solve(tau).log_density; },
                                   prior.between_laboratories);
    std::vector<double> log_share;
    for (int panel = 0; panel < kPanels; ++panel) {
        visit_panel(
            reach.edge(panel), reach.edge(panel + 1), [&](double tau, double weight) {
                GivenTau given = solve(tau);
                log_share.push_back(given.log_density + std::log(weight));
                nodes_.push_back(
                    {tau, 0.0, std::move(given.mean), std::move(given.covariance)});
            });
    }
    const double top = *std::max_element(log_share.begin(), log_share.end());
    double sum = 0.0;
    for (std::size_t i = 0; i < nodes_.size(); ++i) {
        nodes_[i].share = std::exp(log_share[i] - top);
        sum += nodes_[i].share;
    }
    for (PosteriorNode& node : nodes_) node.share /= sum;
}

VectorXd RollingPosterior::mean() const {
    VectorXd mean = VectorXd::Zero(nodes_.front().mean.size());
    for (const PosteriorNode& node : nodes_) mean += node.share * node.mean;
    return mean;
}

MatrixXd RollingPosterior::covariance() const {
    const VectorXd middle = mean();
    MatrixXd covariance = MatrixXd::Zero(middle.size(), middle.size());
    for (const PosteriorNode& node : nodes_) {
        const VectorXd off = node.mean - middle;
        covariance += node.share * (node.covariance + off * off.transpose());
    }
    return 0.5 * (covariance + covariance.transpose());
}

double RollingPosterior::mean_tau() const {
    double mean = 0.0;
    for (const PosteriorNode& node : nodes_) mean += node.share * node.tau;
    return mean;
}

double RollingPosterior::find_quantile(int product, double share, Of of) const {
    const Index p = product - 1;
    const auto spread = [&](const PosteriorNode& node) {
        const double next = of == Of::kNextLaboratory ? node.tau * node.tau : 0.0;
        return std::sqrt(node.covariance(p, p) + next);
    };
    const auto excess = [&](double x) {
        double below = 0.0;
        for (const PosteriorNode& node : nodes_) {
            below += node.share * normal_cdf((x - node.mean(p)) / spread(node));
        }
        return below - share;
    };
    double low = nodes_.front().mean(p), high = low;
    constexpr double kFar = 40.0;  // sds; no double share lies further out
    for (const PosteriorNode& node : nodes_) {
        low = std::min(low, node.mean(p) - kFar * spread(node));
        high = std::max(high, node.mean(p) + kFar * spread(node));
    }
    std::uintmax_t steps = 200;
    const auto [a, b] = boost::math::tools::toms748_solve(
        excess, low, high, boost::math::tools::eps_tolerance<double>(48), steps);
    return 0.5 * (a + b);
}

Interval RollingPosterior::find_interval(int product, double share, Of of) const {
    const double tail = 0.5 * (1.0 - share);
    return {find_quantile(product, tail, of), find_quantile(product, 1.0 - tail, of)};
}

}  // namespace flattail::evidence
