#include "evidence/flats/rate_prior.h"

#include <cmath>

#include "chance/make_distribution.h"

namespace flattail::evidence {

namespace {

// Rates from one flat in 400,000 km to forty in 1000 km; steps of 3.3 %.
constexpr LogGrid kRates{2.5e-9, 1.0 / 30, 300};

// Steps of mean and width: halving both moves no printed figure.
constexpr int kMeans = 72;
constexpr int kWidths = 12;

}  // namespace

RatePrior::RatePrior(const RateBeliefs& beliefs) : rates_(kRates) {
    const Distribution mean = chance::make_split_lognormal(
        {beliefs.low_per_m, beliefs.mid_per_m, beliefs.high_per_m});
    // Half-normal: the upper half of a normal distribution, in equal shares.
    const Distribution width = chance::make_normal(0.0, beliefs.unlike);
    constexpr double kFarthest = 4.2;  // scores of the mean
    for (int i = 0; i < kMeans; ++i) {
        const double score = kFarthest * (2.0 * (i + 0.5) / kMeans - 1.0);
        const double share = 0.5 * std::erfc(-score / std::sqrt(2.0));
        const double density = std::exp(-0.5 * score * score);
        for (int j = 0; j < kWidths; ++j) {
            const double upper = 0.5 + 0.5 * (j + 0.5) / kWidths;
            add_kind(chance::quantile(mean, share), chance::quantile(width, upper),
                     density);
        }
    }
    normalise(chance_);
}

void RatePrior::add_kind(double mean_per_m, double unlike, double chance) {
    const double shape = 1.0 / (unlike * unlike);
    std::vector<double> weights(static_cast<std::size_t>(rates_.size));
    for (int k = 0; k < rates_.size; ++k) {
        // Gamma density of the logarithm but for its constant, largest at the mean.
        const double x = rates_.at(k) / mean_per_m;
        weights[static_cast<std::size_t>(k)] = std::exp(shape * (std::log(x) - x + 1.0));
    }
    normalise(weights);
    chance_.push_back(chance);
    weights_.insert(weights_.end(), weights.begin(), weights.end());
}

}  // namespace flattail::evidence
