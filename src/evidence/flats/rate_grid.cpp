#include "evidence/flats/rate_grid.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace flattail::evidence {

double LogGrid::at(int k) const { return first * std::exp(step * k); }

std::vector<double> LogGrid::values() const {
    std::vector<double> all;
    for (int k = 0; k < size; ++k) all.push_back(at(k));
    return all;
}

void normalise(std::vector<double>& weights) {
    const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
    for (double& weight : weights) weight /= sum;
}

double find_quantile(const LogGrid& grid, const std::vector<double>& weights,
                     double share) {
    double below = 0.0;
    for (int k = 0; k < grid.size; ++k) {
        const double weight = weights[static_cast<std::size_t>(k)];
        if (below + weight >= share && weight > 0.0) {
            return grid.first *
                   std::exp(grid.step * (k - 0.5 + (share - below) / weight));
        }
        below += weight;
    }
    return grid.at(grid.size - 1);
}

double find_share(const LogGrid& grid, const std::vector<double>& weights, double value) {
    const double place = std::log(value / grid.first) / grid.step + 0.5;
    double below = 0.0;
    for (int k = 0; k < grid.size; ++k) {
        below += weights[static_cast<std::size_t>(k)] * std::clamp(place - k, 0.0, 1.0);
    }
    return below;
}

Belief summarise_weights(const LogGrid& grid, const std::vector<double>& weights) {
    Belief belief;
    double square = 0.0;
    for (int k = 0; k < grid.size; ++k) {
        const double weight = weights[static_cast<std::size_t>(k)];
        belief.mean += weight * grid.at(k);
        square += weight * grid.at(k) * grid.at(k);
    }
    belief.sd = std::sqrt(std::max(square - belief.mean * belief.mean, 0.0));
    belief.low = find_quantile(grid, weights, 0.05);
    belief.mid = find_quantile(grid, weights, 0.5);
    belief.high = find_quantile(grid, weights, 0.95);
    return belief;
}

}  // namespace flattail::evidence
