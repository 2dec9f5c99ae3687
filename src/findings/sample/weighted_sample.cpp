#include "findings/sample/weighted_sample.h"

#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <cmath>
#include <limits>

#include "findings/sample/order.h"

namespace flattail::findings {
namespace {

// Sums for the error of the distribution function are kept at every 1024th rank: a
// quantile then adds up at most 1024 days, and the table stays at a thousandth of the
// sample.
constexpr std::size_t kCheckpointStep = 1024;
// Running weights are kept at every 64th rank: a byte for eight days, and a quantile adds
// up at most 64 of them.
constexpr std::size_t kRunningStep = 64;

// p x total weight is rounded: without slack .07 of 100 equal days would be rank 8.
// Larger than any rounding of a sum of 1e8 weights, far smaller than one day's weight.
constexpr double kShareSlack = 1e-12;

constexpr double kInfinity = std::numeric_limits<double>::infinity();

std::size_t stratum_of(const Design& design, std::size_t day) {
    return design.stratum.empty() ? 0 : design.stratum[day];
}

}  // namespace

WeightedSample::WeightedSample(std::span<const double> values, const Design& design)
    : values_(values), design_(design), order_(order_by_value(values)) {
    FLATTAIL_EXPECTS(!values.empty());
    FLATTAIL_EXPECTS(design.weight.size() == values.size());
    FLATTAIL_EXPECTS(design.stratum.empty() || design.stratum.size() == values.size());
    running_weight_.reserve(size() / kRunningStep + 1);
    for (std::size_t rank = 0; rank < size(); ++rank) {
        const double weight = design_.weight[order_[rank]];
        FLATTAIL_EXPECTS(weight >= 0);
        if (rank % kRunningStep == 0) running_weight_.push_back(total_weight_);
        total_weight_ += weight;
    }
    FLATTAIL_EXPECTS(total_weight_ > 0);
    effective_size_ = findings::effective_size(design);
    lay_checkpoints();
}

void WeightedSample::lay_checkpoints() {
    if (!design_.stratum.empty())
        strata_ = std::size_t{1} +
                  *std::max_element(design_.stratum.begin(), design_.stratum.end());
    stratum_days_.assign(strata_, 0);
    checkpoint_.reserve((size() / kCheckpointStep + 2) * strata_);
    std::vector<Sums> sums(strata_);
    for (std::size_t rank = 0; rank < size(); ++rank) {
        if (rank % kCheckpointStep == 0)
            checkpoint_.insert(checkpoint_.end(), sums.begin(), sums.end());
        const std::size_t day = order_[rank];
        const std::size_t stratum = stratum_of(design_, day);
        const double weight = design_.weight[day];
        sums[stratum].weight += weight;
        sums[stratum].squares += weight * weight;
        stratum_days_[stratum] += 1;
        is_plain_ = is_plain_ && weight == design_.weight[0];
    }
    checkpoint_.insert(checkpoint_.end(), sums.begin(), sums.end());
    is_plain_ = is_plain_ && std::count_if(stratum_days_.begin(), stratum_days_.end(),
                                           [](double n) { return n > 0; }) == 1;
}

double WeightedSample::weight_below(std::size_t rank) const {
    if (rank == size()) return total_weight_;
    const std::size_t start = rank / kRunningStep;
    double sum = running_weight_[start];
    for (std::size_t r = start * kRunningStep; r < rank; ++r) {
        sum += design_.weight[order_[r]];
    }
    return sum;
}

std::size_t WeightedSample::rank_of(double p) const {
    const double wanted = p * total_weight() * (1 - kShareSlack);
    // The last step that starts below what is wanted holds the rank.
    const auto after =
        std::lower_bound(running_weight_.begin(), running_weight_.end(), wanted);
    const auto steps = static_cast<std::size_t>(after - running_weight_.begin());
    const std::size_t start = steps == 0 ? 0 : steps - 1;
    double sum = running_weight_[start];
    for (std::size_t rank = start * kRunningStep; rank < size(); ++rank) {
        sum += design_.weight[order_[rank]];
        if (sum >= wanted) return rank;
    }
    return size() - 1;
}

double WeightedSample::quantile(double p) const {
    FLATTAIL_EXPECTS(p > 0 && p <= 1);
    return value_at(rank_of(p));
}

std::size_t WeightedSample::count_up_to(double x) const {
    const auto found =
        std::partition_point(order_.begin(), order_.end(),
                             [&](std::uint32_t day) { return values_[day] <= x; });
    return static_cast<std::size_t>(found - order_.begin());
}

std::size_t WeightedSample::count_below(double x) const {
    const auto found =
        std::partition_point(order_.begin(), order_.end(),
                             [&](std::uint32_t day) { return values_[day] < x; });
    return static_cast<std::size_t>(found - order_.begin());
}

std::vector<WeightedSample::Sums> WeightedSample::sums_below(std::size_t rank) const {
    const std::size_t start = rank / kCheckpointStep;
    std::vector<Sums> below(strata_);
    std::copy_n(checkpoint_.begin() + static_cast<std::ptrdiff_t>(start * strata_),
                strata_, below.begin());
    for (std::size_t r = start * kCheckpointStep; r < rank; ++r) {
        const std::size_t day = order_[r];
        const double weight = design_.weight[day];
        Sums& sums = below[stratum_of(design_, day)];
        sums.weight += weight;
        sums.squares += weight * weight;
    }
    return below;
}

// With s the share of the days of these ranks, a day among them has influence 1 - s and
// any other -s, so every stratum's sums follow from weights and squared weights.
Estimate WeightedSample::share_of_ranks(std::size_t first, std::size_t end) const {
    if (first >= end) return {0, 0};
    const double share = (weight_below(end) - weight_below(first)) / total_weight();
    const std::vector<Sums> low = sums_below(first), high = sums_below(end);
    const Sums* all = checkpoint_.data() + (checkpoint_.size() - strata_);
    StratifiedVariance spread;
    for (std::size_t h = 0; h < strata_; ++h) {
        const double inside = high[h].weight - low[h].weight;
        const double squares_inside = high[h].squares - low[h].squares;
        const double squares =
            (1 - 2 * share) * squares_inside + share * share * all[h].squares;
        spread.add_sums(static_cast<std::uint8_t>(h), stratum_days_[h],
                        inside - share * all[h].weight, squares);
    }
    return {share, std::sqrt(spread.variance()) / total_weight()};
}

Estimate WeightedSample::cdf(double x) const { return share_of_ranks(0, count_up_to(x)); }

Estimate WeightedSample::share_between(double from, double to) const {
    return share_of_ranks(count_below(from), std::isinf(to) ? size() : count_below(to));
}

double WeightedSample::value_at_share(double p) const {
    if (p <= 0) return -kInfinity;
    if (p >= 1) return kInfinity;
    return quantile(p);
}

Interval WeightedSample::binomial_interval(double p, double confidence) const {
    const double days = static_cast<double>(size());
    const RankLimits limits = quantile_ranks(days, p, confidence);
    const auto at = [this](double rank) {
        return value_at(static_cast<std::size_t>(rank) - 1);
    };
    return {limits.low < 1 ? -kInfinity : at(limits.low),
            limits.high > days ? kInfinity : at(limits.high)};
}

Interval WeightedSample::share_interval(double p, double confidence) const {
    const double reach =
        normal_factor(confidence) * share_of_ranks(0, rank_of(p) + 1).standard_error;
    return {value_at_share(p - reach), value_at_share(p + reach)};
}

Interval WeightedSample::quantile_interval(double p, double confidence) const {
    FLATTAIL_EXPECTS(p > 0 && p < 1);
    return is_plain_ ? binomial_interval(p, confidence) : share_interval(p, confidence);
}

Estimate WeightedSample::estimate_quantile(double p) const {
    FLATTAIL_EXPECTS(p > 0 && p < 1);
    const Interval limits = share_interval(p, kConfidence);
    const double error = 0.5 * (limits.high - limits.low) / normal_factor(kConfidence);
    const double unknown = std::numeric_limits<double>::quiet_NaN();
    return {quantile(p), std::isfinite(error) ? error : unknown};
}

RankLimits quantile_ranks(double days, double p, double confidence) {
    using boost::math::policies::discrete_quantile;
    using boost::math::policies::integer_round_up;
    using boost::math::policies::policy;
    // The smallest count whose chance of not being passed reaches the asked one.
    using Binomial =
        boost::math::binomial_distribution<double,
                                           policy<discrete_quantile<integer_round_up>>>;
    const Binomial below(days, p);
    const double miss = 0.5 * (1 - confidence);
    const double low = boost::math::quantile(below, miss);
    const double high = boost::math::quantile(below, 1 - miss) + 1;
    const double under = low < 1 ? 0 : boost::math::cdf(below, low - 1);
    return {low, high, boost::math::cdf(below, high - 1) - under};
}

}  // namespace flattail::findings
