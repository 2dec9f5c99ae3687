#include "findings/sample/tail.h"

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <cmath>
#include <limits>

namespace flattail::findings {
namespace {

// Kish's count of days for the event at hand: the plain days that would give this error.
double days_worth(const Estimate& chance, double effective_days) {
    const double variance = chance.standard_error * chance.standard_error;
    if (variance == 0) return effective_days;
    return chance.value * (1 - chance.value) / variance;
}

}  // namespace

Estimate estimate_worst_average(const WeightedSample& sample, double level) {
    FLATTAIL_EXPECTS(level >= 0 && level < 1);
    const double edge = level > 0 ? sample.quantile(level) : sample.value_at(0);
    const auto& weight = sample.design().weight;
    double excess = 0;
    for (std::size_t rank = sample.count_up_to(edge); rank < sample.size(); ++rank) {
        const std::size_t day = sample.order()[rank];
        if (weight[day] > 0) excess += weight[day] * (sample.value_at(rank) - edge);
    }
    const double scale = 1 / (1 - level);
    const double average = edge + scale * excess / sample.total_weight();
    if (std::isinf(average)) return {average, std::numeric_limits<double>::quiet_NaN()};
    const auto values = sample.values();
    const auto influence = [&](std::size_t day) {
        return edge + scale * std::max(values[day] - edge, 0.0) - average;
    };
    return {average, standard_error(sample.design(), influence)};
}

Estimate estimate_chance_beyond(const WeightedSample& sample, double x) {
    const Estimate within = sample.cdf(x);
    return {std::max(0.0, 1 - within.value), within.standard_error};
}

Estimate estimate_chance(std::span<const std::uint8_t> happened, const Design& design) {
    FLATTAIL_EXPECTS(happened.size() == design.weight.size());
    double sum = 0;
    for (std::size_t day = 0; day < happened.size(); ++day)
        sum += design.weight[day] * happened[day];
    const double chance = sum / total_weight(design);
    const auto influence = [&](std::size_t day) { return happened[day] - chance; };
    return {chance, standard_error(design, influence)};
}

Estimate estimate_conditional_mean(std::span<const double> values,
                                   std::span<const std::uint8_t> happened,
                                   const Design& design) {
    FLATTAIL_EXPECTS(values.size() == happened.size());
    double sum = 0, weight = 0;
    for (std::size_t day = 0; day < values.size(); ++day) {
        if (happened[day] == 0) continue;
        sum += design.weight[day] * values[day];
        weight += design.weight[day];
    }
    const double mean = sum / weight;
    const double scale = total_weight(design) / weight;
    const auto influence = [&](std::size_t day) {
        return happened[day] == 0 ? 0.0 : scale * (values[day] - mean);
    };
    if (weight == 0) return {mean, mean};
    return {mean, standard_error(design, influence)};
}

Interval chance_interval(const Estimate& chance, double effective_days,
                         double confidence) {
    FLATTAIL_EXPECTS(effective_days > 0);
    using boost::math::beta_distribution;
    const double days = days_worth(chance, effective_days);
    const double hits = chance.value * days;
    const double misses = (1 - chance.value) * days;
    const double miss = 0.5 * (1 - confidence);
    Interval limits{0, 1};
    if (hits > 0)
        limits.low = quantile(beta_distribution<double>(hits, misses + 1), miss);
    if (misses > 0)
        limits.high = quantile(beta_distribution<double>(hits + 1, misses), 1 - miss);
    return limits;
}

}  // namespace flattail::findings
