// Flat rates of several inners, after a log was read.
#pragma once

#include <vector>

#include "evidence/flats/rate_prior.h"

namespace flattail::evidence {

/// The flats of one day, or of a row that sums several days of equal length.
struct DayCount {
    double even_m = 0.0;
    int flats = 0;
    double rides = 1.0;
};

/// Log-likelihood of each rate of the grid. Every day has a gamma factor of mean 1 and
/// shape `clump_shape` on its rate; infinite: none.
/// Source:  METHOD 6.16
std::vector<double> compute_log_likelihood(const std::vector<DayCount>& days,
                                           double clump_shape, const LogGrid& rates);

/// Weights over rates by group, and how groups go together.
class RatePosterior {
  public:
    /// log_likelihood[group][rate].
    /// Source:  METHOD 6.17
    RatePosterior(const RatePrior& prior,
                  const std::vector<std::vector<double>>& log_likelihood);

    const LogGrid& rates() const { return prior_->rates(); }
    /// weights[rate] of a group, sum 1.
    const std::vector<double>& weights(std::size_t group) const {
        return weights_[group];
    }
    /// Rate of one group over that of another.
    Belief compare(std::size_t group, std::size_t reference) const;
    /// Covariance of the logarithms of two groups' rates.
    double covariance(std::size_t a, std::size_t b) const;

  private:
    // Weights of a group's rates given a kind of the prior.
    std::vector<double> weights_given(std::size_t group, std::size_t kind) const;

    const RatePrior* prior_;
    std::vector<std::vector<double>> likelihood_;  // scaled to a largest value of 1
    std::vector<std::vector<double>> weights_;
    std::vector<double> kind_;  // chance of each kind now
};

}  // namespace flattail::evidence
