#include "evidence/flats/race_factor.h"

#include <algorithm>
#include <cmath>

#include "chance/make_distribution.h"
#include "physics/flat_hazard.h"

namespace flattail::evidence {

namespace {

// Steps of the factor; on the grid of rates, so that products stay on a grid.
constexpr double kFrom = 0.05, kTo = 6.0;
// A rate or factor this unlikely moves no printed figure.
constexpr double kNegligible = 1e-9;

RaceChances predict_day(double expected, double shape) {
    if (std::isinf(shape)) {
        return {std::exp(-expected), expected * std::exp(-expected)};
    }
    const double none = std::exp(-shape * std::log1p(expected / shape));
    return {none, none * expected / (1.0 + expected / shape)};
}

}  // namespace

RaceFactor start_race_factor() {
    RaceFactor factor;
    factor.grid = {kFrom, 0.0, 121};
    factor.grid.step = std::log(kTo / kFrom) / (factor.grid.size - 1);
    const Distribution before =
        chance::make_split_lognormal({0.4, physics::kRaceFactor, 1.3});
    for (int i = 0; i < factor.grid.size; ++i) {
        const double half = std::exp(0.5 * factor.grid.step);
        const double value = factor.grid.at(i);
        factor.weights.push_back(chance::cdf(before, value * half) -
                                 chance::cdf(before, value / half));
    }
    normalise(factor.weights);
    return factor;
}

void learn_from_races(RaceFactor& factor, const std::vector<DayCount>& days,
                      double clump_shape, const LogGrid& rates,
                      const std::vector<double>& training) {
    if (days.empty()) return;
    // Likelihood of a race rate on one long grid of rates; a factor reads it shifted.
    const LogGrid shifted{
        rates.first * kFrom, rates.step,
        rates.size + static_cast<int>(std::ceil(std::log(kTo / kFrom) / rates.step)) + 1};
    const auto logs = compute_log_likelihood(days, clump_shape, shifted);
    const double top = *std::max_element(logs.begin(), logs.end());
    for (int i = 0; i < factor.grid.size; ++i) {
        const double shift = i * factor.grid.step / rates.step;
        double sum = 0.0;
        for (std::size_t k = 0; k < training.size(); ++k) {
            if (training[k] < kNegligible) continue;
            const double at = static_cast<double>(k) + shift;
            const auto below = static_cast<std::size_t>(at);
            const double part = at - static_cast<double>(below);
            const double log = (1.0 - part) * logs[below] + part * logs[below + 1];
            sum += training[k] * std::exp(log - top);
        }
        factor.weights[static_cast<std::size_t>(i)] *= sum;
    }
    normalise(factor.weights);
}

RaceChances predict_race(const RaceFactor& factor, const LogGrid& rates,
                         const std::vector<double>& weights, double clump_shape,
                         double race_m) {
    RaceChances chances{0.0, 0.0};
    for (int i = 0; i < factor.grid.size; ++i) {
        const double of_factor = factor.weights[static_cast<std::size_t>(i)];
        if (of_factor < kNegligible) continue;
        for (std::size_t k = 0; k < weights.size(); ++k) {
            const double expected =
                rates.at(static_cast<int>(k)) * factor.grid.at(i) * race_m;
            const RaceChances day = predict_day(expected, clump_shape);
            chances.none += of_factor * weights[k] * day.none;
            chances.one += of_factor * weights[k] * day.one;
        }
    }
    return chances;
}

}  // namespace flattail::evidence
