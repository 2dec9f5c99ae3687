// The posterior of differences between products, laboratories being random.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "flattail/findings.h"

namespace flattail::evidence {

/// What one laboratory says of one product in one block of tests that are alike in
/// method, surface and tyre: their mean and its variance. Only differences inside a block
/// count.
struct Cell {
    int laboratory = 0;
    int block = 0;  // numbered over all laboratories
    int product = 0;
    double value = 0.0;
    double variance = 0.0;
};

/// What is believed before the first test.
struct RollingPrior {
    double difference_sd = 0.0;         // of a difference between two products
    double between_laboratories = 0.0;  // scale of a half-normal prior of tau
    double specimen_sd = 0.0;           // taken as known
};

/// One value of tau, its share of the posterior, and what is believed given it.
/// Shapes:  mean[product - 1], covariance alike; product 0 is the one compared with
struct PosteriorNode {
    double tau = 0.0;
    double share = 0.0;
    Eigen::VectorXd mean;
    Eigen::MatrixXd covariance;
};

class RollingPosterior {
  public:
    /// Products are numbered 0 to products - 1, laboratories from 0.
    /// Range:   variances > 0, prior widths > 0
    /// Source:  METHOD 4.10
    RollingPosterior(const std::vector<Cell>& cells, int products,
                     const RollingPrior& prior);

    const std::vector<PosteriorNode>& nodes() const { return nodes_; }
    Eigen::VectorXd mean() const;
    Eigen::MatrixXd covariance() const;
    double mean_tau() const;

    /// Where the difference of product `i` lies with this chance, equal tails; with
    /// `next`, where one more laboratory would find it, its own error aside.
    /// Accuracy: 1e-9 of its sd
    enum class Of { kDifference, kNextLaboratory };
    Interval find_interval(int product, double share, Of of) const;

  private:
    double find_quantile(int product, double share, Of of) const;

    std::vector<PosteriorNode> nodes_;
};

}  // namespace flattail::evidence
