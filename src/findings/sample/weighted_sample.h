// One figure of one setup over all race days, sorted once: quantiles and chances from it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "findings/sample/estimate.h"

namespace flattail::findings {

/// A weighted sample sorted by value. Looks at values and design, which must outlive it;
/// holds little more than the order itself, 4 bytes per day.
/// Range:   value +infinity allowed (no finish is beyond every time); NaN is not
class WeightedSample {
  public:
    WeightedSample(std::span<const double> values, const Design& design);

    std::size_t size() const { return values_.size(); }
    const Design& design() const { return design_; }
    std::span<const double> values() const { return values_; }
    std::span<const std::uint32_t> order() const { return order_; }
    /// The value with `rank` smaller ones before it.
    double value_at(std::size_t rank) const { return values_[order_[rank]]; }
    /// Weight of the `rank` smallest values.
    double weight_below(std::size_t rank) const;
    double total_weight() const { return total_weight_; }
    double effective_size() const { return effective_size_; }

    /// Smallest value with at least share p of the weight at or below it; p in (0, 1].
    /// Source: METHOD 10.4 (Hyndman & Fan 1996, definition 1)
    double quantile(double p) const;

    /// Limits for the quantile; -+infinity where the days are too few to give one.
    /// Equal weights in one stratum: exact binomial order statistics. Otherwise the
    /// values at p -+ z standard errors of the distribution function.
    /// Source: METHOD 10.5, 10.6 (David & Nagaraja 2003; Woodruff 1952)
    Interval quantile_interval(double p, double confidence = kConfidence) const;

    /// The quantile with a standard error: half the distance of the values one normal
    /// factor of standard errors apart in share, divided by that factor. NaN if infinite.
    /// Source: METHOD 10.6 (Woodruff 1952; Francisco & Fuller 1991)
    Estimate estimate_quantile(double p) const;

    /// Share of the weight at or below x.
    Estimate cdf(double x) const;

    /// Share of the weight with from <= value < to; `to` = +infinity takes in all above.
    Estimate share_between(double from, double to) const;

    /// Number of days with a value at or below x.
    std::size_t count_up_to(double x) const;

  private:
    struct Sums {
        double weight = 0, squares = 0;
    };

    std::size_t rank_of(double p) const;
    double value_at_share(double p) const;
    std::vector<Sums> sums_below(std::size_t rank) const;
    Estimate share_of_ranks(std::size_t first, std::size_t end) const;
    Interval binomial_interval(double p, double confidence) const;
    Interval share_interval(double p, double confidence) const;
    std::size_t count_below(double x) const;
    void lay_checkpoints();

    std::span<const double> values_;
    Design design_;
    std::vector<std::uint32_t> order_;
    double total_weight_ = 0;
    std::vector<double> running_weight_;  // below every kRunningStep-th rank
    std::size_t strata_ = 1;
    bool is_plain_ = true;
    double effective_size_ = 0;
    std::vector<Sums> checkpoint_;  // [rank / step][stratum], sums below that rank
    std::vector<double> stratum_days_;
};

/// Binomial order-statistic ranks (1-based) around a quantile of n equal days; low 0 or
/// high n + 1 mean that no such limit exists.
/// Source: David & Nagaraja 2003; METHOD 10.5
struct RankLimits {
    double low = 0;
    double high = 0;
    double cover = 0;
};
RankLimits quantile_ranks(double days, double p, double confidence = kConfidence);

}  // namespace flattail::findings
