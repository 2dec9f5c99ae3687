#include "findings/sample/tail.h"

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/gamma.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <limits>

#include "findings/sample/error_shape.h"
#include "flattail/findings.h"

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
    ErrorShape shape;
    for (std::size_t day = 0; day < happened.size(); ++day) {
        const std::uint8_t stratum = design.stratum.empty() ? 0 : design.stratum[day];
        shape.add(stratum, design.weight[day] * influence(day));
    }
    return {chance, standard_error(design, influence), shape.skewness(), shape.freedom()};
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

namespace {

// A variance from one or two days says next to nothing; Student's limits would go to
// infinity (4.3 standard errors with 2).
constexpr double kLeastFreedom = 2;

// Clopper & Pearson on as many days as the error says, or as there are.
Interval count_interval(const Estimate& chance, double effective_days, double miss) {
    using boost::math::beta_distribution;
    const double days = days_worth(chance, effective_days);
    const double hits = chance.value * days;
    const double misses = (1 - chance.value) * days;
    Interval limits{0, 1};
    if (hits > 0)
        limits.low = quantile(beta_distribution<double>(hits, misses + 1), miss);
    if (misses > 0)
        limits.high = quantile(beta_distribution<double>(hits + 1, misses), 1 - miss);
    return limits;
}

// Student's factor over the normal one.
double find_widening(const Estimate& chance, double miss) {
    if (!(chance.freedom > 0) || std::isinf(chance.freedom)) return 1;
    const double freedom = std::max(chance.freedom, kLeastFreedom);
    return quantile(boost::math::students_t_distribution<double>(freedom), 1 - miss) /
           quantile(boost::math::normal_distribution<double>(), 1 - miss);
}

// The error leans like that of a count of 1 / skewness^2 events, each worth
// skewness x standard error.
Interval leaning_interval(const Estimate& chance, double miss) {
    const double lean = std::fabs(chance.skewness);
    const double events = 1 / (lean * lean);
    const boost::math::gamma_distribution<double> law(events + 0.5);
    const double worth = lean * chance.standard_error * find_widening(chance, miss);
    const double below = worth * (events - quantile(law, miss));
    const double above = worth * (quantile(law, 1 - miss) - events);
    const bool is_right = chance.skewness > 0;
    return {std::max(0.0, chance.value - (is_right ? below : above)),
            std::min(1.0, chance.value + (is_right ? above : below))};
}

// Less lopsided than ten thousand events, a count and its normal limits are the same to
// half a percent of the error.
constexpr double kLeastSkewness = 0.01;

}  // namespace

Interval chance_interval(const Estimate& chance, double effective_days,
                         double confidence) {
    FLATTAIL_EXPECTS(effective_days > 0);
    const double miss = 0.5 * (1 - confidence);
    if (chance.standard_error > 0 && std::fabs(chance.skewness) > kLeastSkewness)
        return leaning_interval(chance, miss);
    return count_interval(chance, effective_days, miss);
}

}  // namespace flattail::findings

namespace flattail {

Interval find_chance_limits(const Figure& chance, double effective_races) {
    const findings::Interval limits = findings::chance_interval(
        {chance.value, chance.standard_error, chance.skewness, chance.freedom},
        std::max(effective_races, 1.0));
    return {limits.low, limits.high};
}

}  // namespace flattail
