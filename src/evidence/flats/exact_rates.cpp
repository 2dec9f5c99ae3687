#include "evidence/flats/exact_rates.h"

#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/gamma.hpp>
#include <boost/math/distributions/poisson.hpp>
#include <cmath>
#include <limits>

namespace flattail::evidence {

namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

using Binomial = boost::math::binomial_distribution<double>;
constexpr auto kClopperPearson = Binomial::clopper_pearson_exact_interval;

// Limits of the share of the first among n flats.
Interval compute_share_limits(std::int64_t first, std::int64_t n, double tail) {
    const auto trials = static_cast<double>(n);
    const auto hits = static_cast<double>(first);
    const auto lower = Binomial::find_lower_bound_on_p;
    const auto upper = Binomial::find_upper_bound_on_p;
    return {first == 0 ? 0.0 : lower(trials, hits, tail, kClopperPearson),
            first == n ? 1.0 : upper(trials, hits, tail, kClopperPearson)};
}

double ratio_of_share(double share, double distance_ratio) {
    return share >= 1.0 ? kInfinity : share / (1.0 - share) * distance_ratio;
}

// Every outcome that is no likelier than what was seen.
double compute_p_value(std::int64_t first, std::int64_t n, double share) {
    const Binomial counts(static_cast<double>(n), share);
    // Outcomes as likely as the seen one, but for rounding, count with it.
    constexpr double kRounding = 1.0 + 1e-7;
    const double seen = pdf(counts, static_cast<double>(first)) * kRounding;
    double p = 0.0;
    for (std::int64_t k = 0; k <= n; ++k) {
        const double chance = pdf(counts, static_cast<double>(k));
        if (chance <= seen) p += chance;
    }
    return std::min(p, 1.0);
}

constexpr double kTail = 0.025;

// Chance that the limits exclude `share` when the true share is `truth`: the first count
// lies where one tail of the binomial distribution is below 2.5 %.
double compute_power(std::int64_t n, double share, double truth) {
    const Binomial null(static_cast<double>(n), share);
    const Binomial real(static_cast<double>(n), truth);
    const auto middle = static_cast<std::int64_t>(static_cast<double>(n) * share);
    std::int64_t low = middle;
    while (low >= 0 && cdf(null, static_cast<double>(low)) > kTail) --low;
    std::int64_t high = middle + 1;
    while (high <= n && cdf(complement(null, static_cast<double>(high - 1))) > kTail) {
        ++high;
    }
    double power = low >= 0 ? cdf(real, static_cast<double>(low)) : 0.0;
    if (high <= n) {
        power += cdf(complement(real, static_cast<double>(high - 1)));
    }
    return power;
}

}  // namespace

Interval compute_poisson_limits(std::int64_t count, double confidence) {
    const double tail = 0.5 * (1.0 - confidence);
    const auto n = static_cast<double>(count);
    const auto gamma = [](double shape) {
        return boost::math::gamma_distribution<double>(shape);
    };
    return {count == 0 ? 0.0 : quantile(gamma(n), tail),
            quantile(complement(gamma(n + 1.0), tail))};
}

ExactRatio compare_rates(const CountedDistance& first, const CountedDistance& second) {
    const std::int64_t n = first.flats + second.flats;
    const double distance_ratio = second.distance_m / first.distance_m;
    ExactRatio exact;
    if (n == 0) {
        exact.ratio = std::numeric_limits<double>::quiet_NaN();
        exact.limits = {0.0, kInfinity};
        return exact;
    }
    const double share = static_cast<double>(first.flats) / static_cast<double>(n);
    exact.ratio = ratio_of_share(share, distance_ratio);
    const Interval limits = compute_share_limits(first.flats, n, kTail);
    exact.limits = {ratio_of_share(limits.low, distance_ratio),
                    ratio_of_share(limits.high, distance_ratio)};
    exact.p_value = compute_p_value(
        first.flats, n, first.distance_m / (first.distance_m + second.distance_m));
    return exact;
}

double compute_chance_to_tell(const PlannedCounts& planned) {
    const double total = planned.first_flats + planned.second_flats;
    if (!(total > 0.0)) return 0.0;
    const double share = planned.first_m / (planned.first_m + planned.second_m);
    const double truth = planned.first_flats / total;
    // Beyond seven standard deviations nothing is left that a chance of .8 could notice.
    constexpr double kFar = 7.0;
    const double width = kFar * std::sqrt(total) + kFar;
    const auto from = static_cast<std::int64_t>(std::max(total - width, 1.0));
    const auto to = static_cast<std::int64_t>(total + width);
    const boost::math::poisson_distribution<double> counts(total);
    double chance = 0.0;
    for (std::int64_t n = from; n <= to; ++n) {
        chance += pdf(counts, static_cast<double>(n)) * compute_power(n, share, truth);
    }
    return chance;
}

double find_distance_to_tell(double reference_m, double other_m, double rate_per_m) {
    constexpr double kFactor = 2.0;   // what a rider would act on
    constexpr double kWanted = 0.8;   // common practice in planning
    constexpr double kMost_m = 1e9;   // no rider's log
    constexpr double kClose = 1.005;  // of a distance that is printed to two figures
    const auto tells = [&](double more_m) {
        const double reference = reference_m + more_m, other = other_m + more_m;
        return compute_chance_to_tell({other, reference, kFactor * rate_per_m * other,
                                       rate_per_m * reference}) >= kWanted;
    };
    if (reference_m > 0.0 && other_m > 0.0 && tells(0.0)) return 0.0;
    double high = 1e5;
    while (!tells(high)) {
        high *= 2.0;
        if (high > kMost_m) return kInfinity;
    }
    double low = 0.0;
    while (high - low > (kClose - 1.0) * high) {
        const double middle = 0.5 * (low + high);
        (tells(middle) ? high : low) = middle;
    }
    return high;
}

}  // namespace flattail::evidence
