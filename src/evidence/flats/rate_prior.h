// Flat rates of several inners, before a log is read: each from one gamma distribution,
// whose mean and width are not known either.
#pragma once

#include <cstddef>
#include <vector>

#include "evidence/flats/rate_grid.h"

namespace flattail::evidence {

/// What is believed of rates beforehand.
struct RateBeliefs {
    // Mean rate over inners: 5, 50 and 95 % points; the default of flats.training.
    double low_per_m = 1.0 / 6e6;
    double mid_per_m = 1.0 / 2.5e6;
    double high_per_m = 1.0 / 1e6;
    // Scale of the half-normal prior of sd / mean over inners. Assumption: a third, as
    // wide as the default range of cuts by inner. Larger: a log's inners are taken apart
    // sooner, and one says less about another.
    double unlike = 0.35;
};

/// The beliefs on a grid: a mean and a width (one `kind`), and given those the weights of
/// each rate.
class RatePrior {
  public:
    explicit RatePrior(const RateBeliefs& beliefs = {});

    const LogGrid& rates() const { return rates_; }
    std::size_t kinds() const { return chance_.size(); }
    double chance(std::size_t kind) const { return chance_[kind]; }
    /// rates().size weights, sum 1.
    const double* weights(std::size_t kind) const {
        return &weights_[kind * static_cast<std::size_t>(rates_.size)];
    }

  private:
    void add_kind(double mean_per_m, double unlike, double chance);

    LogGrid rates_;
    std::vector<double> chance_;
    std::vector<double> weights_;
};

}  // namespace flattail::evidence
