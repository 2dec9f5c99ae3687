#include "evidence/flats/rate_posterior.h"

#include <algorithm>
#include <cmath>

namespace flattail::evidence {

namespace {

// A kind this unlikely moves no printed figure.
constexpr double kNegligible = 1e-9;

// ln P(n flats | rate) of one day but for constants.
double log_chance(const DayCount& day, double clump_shape, double rate) {
    const double expected = rate * day.even_m;
    if (std::isinf(clump_shape)) {
        return day.flats * std::log(expected) - expected;
    }
    // Several days of equal length share the sum of as many factors.
    const double shape = clump_shape * day.rides;
    const double excess = std::log1p(expected / shape);
    return -(shape + day.flats) * excess + day.flats * std::log(expected);
}

double dot(const std::vector<double>& a, const double* b) {
    double sum = 0.0;
    for (std::size_t k = 0; k < a.size(); ++k) sum += a[k] * b[k];
    return sum;
}

}  // namespace

std::vector<double> compute_log_likelihood(const std::vector<DayCount>& days,
                                           double clump_shape, const LogGrid& rates) {
    std::vector<double> sums;
    for (int k = 0; k < rates.size; ++k) {
        const double rate = rates.at(k);
        double sum = 0.0;
        for (const DayCount& day : days) sum += log_chance(day, clump_shape, rate);
        sums.push_back(sum);
    }
    return sums;
}

RatePosterior::RatePosterior(const RatePrior& prior,
                             const std::vector<std::vector<double>>& log_likelihood)
    : prior_(&prior) {
    const std::size_t kinds = prior.kinds();
    std::vector<std::vector<double>> marginal;  // [group][kind]
    std::vector<double> log_kind(kinds);
    for (std::size_t h = 0; h < kinds; ++h) log_kind[h] = std::log(prior.chance(h));
    for (const std::vector<double>& logs : log_likelihood) {
        const double top = *std::max_element(logs.begin(), logs.end());
        std::vector<double> scaled;
        for (const double value : logs) scaled.push_back(std::exp(value - top));
        std::vector<double> sums(kinds);
        for (std::size_t h = 0; h < kinds; ++h) {
            sums[h] = dot(scaled, prior.weights(h));
            log_kind[h] += std::log(sums[h]);
        }
        likelihood_.push_back(std::move(scaled));
        marginal.push_back(std::move(sums));
    }
    const double top = *std::max_element(log_kind.begin(), log_kind.end());
    for (const double value : log_kind) kind_.push_back(std::exp(value - top));
    normalise(kind_);
    for (std::size_t g = 0; g < likelihood_.size(); ++g) {
        std::vector<double> mixed(likelihood_[g].size());
        for (std::size_t h = 0; h < kinds; ++h) {
            if (kind_[h] < kNegligible) continue;
            const double share = kind_[h] / marginal[g][h];
            const double* weights = prior.weights(h);
            for (std::size_t k = 0; k < mixed.size(); ++k) mixed[k] += share * weights[k];
        }
        for (std::size_t k = 0; k < mixed.size(); ++k) mixed[k] *= likelihood_[g][k];
        normalise(mixed);
        weights_.push_back(std::move(mixed));
    }
}

std::vector<double> RatePosterior::weights_given(std::size_t group,
                                                 std::size_t kind) const {
    std::vector<double> weights = likelihood_[group];
    const double* prior = prior_->weights(kind);
    for (std::size_t k = 0; k < weights.size(); ++k) weights[k] *= prior[k];
    normalise(weights);
    return weights;
}

Belief RatePosterior::compare(std::size_t group, std::size_t reference) const {
    const int size = rates().size;
    std::vector<double> ratio(static_cast<std::size_t>(2 * size - 1));
    for (std::size_t h = 0; h < kind_.size(); ++h) {
        if (kind_[h] < kNegligible) continue;
        const std::vector<double> one = weights_given(group, h);
        const std::vector<double> other = weights_given(reference, h);
        for (std::size_t k = 0; k < one.size(); ++k) {
            const double share = kind_[h] * one[k];
            if (share < kNegligible * kNegligible) continue;
            double* row = &ratio[k + static_cast<std::size_t>(size) - 1];
            for (std::size_t l = 0; l < other.size(); ++l) {
                *(row - l) += share * other[l];
            }
        }
    }
    normalise(ratio);
    const LogGrid grid{std::exp(-rates().step * (size - 1)), rates().step, 2 * size - 1};
    return summarise_weights(grid, ratio);
}

// E(ln a ln b) - E(ln a) E(ln b), groups being independent given the kind.
double RatePosterior::covariance(std::size_t a, std::size_t b) const {
    double product = 0.0, mean_a = 0.0, mean_b = 0.0;
    const auto mean_square = [&](const std::vector<double>& weights) {
        double mean = 0.0, square = 0.0;
        for (std::size_t k = 0; k < weights.size(); ++k) {
            const double log = rates().step * static_cast<double>(k);
            mean += weights[k] * log;
            square += weights[k] * log * log;
        }
        return std::pair{mean, square};
    };
    for (std::size_t h = 0; h < kind_.size(); ++h) {
        if (kind_[h] < kNegligible) continue;
        const auto [first, square] = mean_square(weights_given(a, h));
        const double second = a == b ? first : mean_square(weights_given(b, h)).first;
        product += kind_[h] * (a == b ? square : first * second);
        mean_a += kind_[h] * first;
        mean_b += kind_[h] * second;
    }
    return product - mean_a * mean_b;
}

}  // namespace flattail::evidence
