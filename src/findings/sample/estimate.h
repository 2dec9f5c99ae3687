// What every finding is: a figure with its error, from weighted days in strata.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>

#include "base/expects.h"

namespace flattail::findings {

/// How the race days were drawn, shared by all setups.
/// Shapes:  weight[day], non-negative, all ones for plain days; stratum[day] or empty.
/// The spans must outlive every sample built on them. A condition ("given a flat") is the
/// same design with the weight of every other day set to 0.
/// A stratum is a group of days whose number was fixed before drawing; days drawn plainly
/// beside stratified ones form a stratum of their own.
struct Design {
    std::span<const double> weight;
    std::span<const std::uint8_t> stratum;
};

struct Estimate {
    double value = 0;
    double standard_error = 0;
    double skewness = 0;  // of the error; 0 where it is not followed
    double freedom = 0;   // degrees of freedom of the error; 0: as skewness
};

struct Interval {
    double low = 0;
    double high = 0;
};

/// Every printed interval is a 95 % interval; another value changes their widths only.
inline constexpr double kConfidence = 0.95;

/// Two-sided normal factor: 1.96 for .95.
double normal_factor(double confidence);

/// Value -+ normal factor x standard error.
Interval interval_of(const Estimate& estimate, double confidence = kConfidence);

double total_weight(const Design& design);

/// (sum w)^2 / sum w^2: the number of equally weighted days worth as much.
/// Source: Kish 1965; METHOD 10.2
double effective_size(const Design& design);

/// Variance of a sum of terms, each drawn inside a stratum of fixed size.
/// A stratum with a single day is compared with zero, the mean of all influence values,
/// which overstates its part rather than leaving it out.
/// Source: Cochran 1977, chapter 5; METHOD 10.3
class StratifiedVariance {
  public:
    void add(std::uint8_t stratum, double term) {
        Part& part = parts_[stratum];
        part.count += 1;
        part.sum += term;
        part.squares += term * term;
    }
    /// Adds a whole stratum from its sums.
    void add_sums(std::uint8_t stratum, double count, double sum, double squares);
    double variance() const;

  private:
    struct Part {
        double count = 0, sum = 0, squares = 0;
    };
    std::array<Part, 256> parts_{};
};

/// Standard error of sum(w e)/sum(w) from influence(day) = e - estimate.
/// Source: METHOD 10.3; Hampel 1974 for influence values, Sarndal et al. 1992
template <class Influence>
double standard_error(const Design& design, Influence influence) {
    const std::size_t days = design.weight.size();
    FLATTAIL_EXPECTS(design.stratum.empty() || design.stratum.size() == days);
    StratifiedVariance spread;
    if (design.stratum.empty()) {
        double sum = 0, squares = 0;
        for (std::size_t day = 0; day < days; ++day) {
            const double term = design.weight[day] * influence(day);
            sum += term;
            squares += term * term;
        }
        spread.add_sums(0, static_cast<double>(days), sum, squares);
    } else {
        for (std::size_t day = 0; day < days; ++day)
            spread.add(design.stratum[day], design.weight[day] * influence(day));
    }
    return std::sqrt(spread.variance()) / total_weight(design);
}

}  // namespace flattail::findings
