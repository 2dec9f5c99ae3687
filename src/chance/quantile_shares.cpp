#include "chance/quantile_shares.h"

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/gamma.hpp>
#include <cmath>

#include "base/expects.h"
#include "base/lane_normal.h"
#include "chance/von_mises.h"

namespace flattail::chance {
namespace {

namespace lane = base::lane;

template <class BoostDistribution>
double find_boost_quantile(const BoostDistribution& law, const Shares& shares) {
    if (shares.below <= shares.above) return boost::math::quantile(law, shares.below);
    return boost::math::quantile(boost::math::complement(law, shares.above));
}

double scale_score(double z, double centre, double below, double above) {
    return centre + (z < 0.0 ? below : above) * z;
}

double read_quantile_table(const std::vector<double>& table, double u) {
    const double place = u * static_cast<double>(table.size() - 1);
    const auto cell = std::min(static_cast<std::size_t>(place), table.size() - 2);
    const double x = place - static_cast<double>(cell);
    return table[cell] + x * (table[cell + 1] - table[cell]);
}

double pick_sample(const std::vector<double>& samples, double u) {
    const double place = u * static_cast<double>(samples.size());
    return samples[std::min(static_cast<std::size_t>(place), samples.size() - 1)];
}

double find_share_in_table(const std::vector<double>& table, double x) {
    if (x < table.front()) return 0.0;
    if (x >= table.back()) return 1.0;
    const auto next = std::upper_bound(table.begin(), table.end(), x);
    const auto cell = static_cast<std::size_t>(next - table.begin()) - 1;
    const double within = (x - table[cell]) / (table[cell + 1] - table[cell]);
    return (static_cast<double>(cell) + within) / static_cast<double>(table.size() - 1);
}

double find_share_of_samples(const std::vector<double>& samples, double x) {
    const auto below = std::count_if(samples.begin(), samples.end(),
                                     [x](double sample) { return sample <= x; });
    return static_cast<double>(below) / static_cast<double>(samples.size());
}

double find_share_in_triangle(const Distribution& d, double x) {
    if (x <= d.a) return 0.0;
    if (x >= d.c) return 1.0;
    const double width = d.c - d.a;
    if (x < d.b) return (x - d.a) * (x - d.a) / (width * (d.b - d.a));
    return 1.0 - (d.c - x) * (d.c - x) / (width * (d.c - d.b));
}

/// The offset of an angle from the mean direction, in (-pi, pi].
double find_offset(double angle_rad, double mean_rad) {
    const double wrapped = lane::wrap_angle(angle_rad - mean_rad);
    return wrapped > lane::kPi ? wrapped - lane::kTwoPi : wrapped;
}

double find_share_on_circle(double offset_rad, double sd_rad) {
    // Turns beyond 9 sd hold less than 1e-18.
    const int turns = 1 + static_cast<int>(9.0 * sd_rad / lane::kTwoPi);
    double share = 0.0;
    for (int turn = -turns; turn <= turns; ++turn) {
        const double shift = turn * lane::kTwoPi;
        share += lane::normal_cdf((offset_rad + shift) / sd_rad) -
                 lane::normal_cdf((shift - lane::kPi) / sd_rad);
    }
    return share;
}

double find_split_share(double x, double centre, double below, double above) {
    return lane::normal_cdf((x - centre) / (x < centre ? below : above));
}

// The largest share a cut distribution is drawn at: F(lower) + u F(kept) must not round
// to 1. What it drops beyond is 2e-16 of all days.
constexpr double kLargestShare = 1.0 - 0x1p-52;

}  // namespace

KeptShare find_kept_share(const Distribution& d) {
    if (!is_bounded(d)) return {};
    const double below = find_share_below(d, std::nextafter(d.lower, -HUGE_VAL));
    const double upto = std::min(find_share_below(d, d.upper), kLargestShare);
    return {below, 1.0 - upto, upto - below};
}

Shares widen_shares(const Shares& within, const KeptShare& kept) {
    return {kept.cut_below + kept.kept * within.below,
            kept.cut_above + kept.kept * within.above};
}

double find_quantile(const Distribution& d, const Shares& shares) {
    const double u = shares.below;
    switch (d.shape) {
        case Shape::kPoint:
            return d.a;
        case Shape::kNormal:
            return scale_score(lane::normal_quantile(u), d.a, d.b, d.b);
        case Shape::kLognormal:
            return lane::exp(scale_score(lane::normal_quantile(u), d.a, d.b, d.b));
        case Shape::kSplitNormal:
            return scale_score(lane::normal_quantile(u), d.a, d.b, d.c);
        case Shape::kSplitLognormal:
            return lane::exp(scale_score(lane::normal_quantile(u), d.a, d.b, d.c));
        case Shape::kUniform:
            return d.a + (d.b - d.a) * u;
        case Shape::kBeta:
            return find_boost_quantile(boost::math::beta_distribution<>(d.a, d.b),
                                       shares);
        case Shape::kGamma:
            return find_boost_quantile(boost::math::gamma_distribution<>(d.a, d.b),
                                       shares);
        case Shape::kWeibull:
            return lane::weibull_quantile(u, 1.0 / d.a, d.b);
        case Shape::kTriangular:
            return lane::triangular_quantile(u, d.a, d.b, d.c);
        case Shape::kWrappedNormal:
            return d.b * lane::normal_quantile(u);
        case Shape::kVonMises:
            return von_mises_quantile(shares.below, shares.above, d.b);
        case Shape::kTable:
            return read_quantile_table(d.table, u);
        case Shape::kSamples:
            return pick_sample(d.table, u);
        case Shape::kBernoulli:
            return u > 1.0 - d.a ? 1.0 : 0.0;
    }
    return d.a;
}

double find_share_below(const Distribution& d, double x) {
    const bool is_positive = x > 0.0;
    switch (d.shape) {
        case Shape::kPoint:
            return x >= d.a ? 1.0 : 0.0;
        case Shape::kNormal:
            return lane::normal_cdf((x - d.a) / d.b);
        case Shape::kLognormal:
            return is_positive ? lane::normal_cdf((std::log(x) - d.a) / d.b) : 0.0;
        case Shape::kSplitNormal:
            return find_split_share(x, d.a, d.b, d.c);
        case Shape::kSplitLognormal:
            return is_positive ? find_split_share(std::log(x), d.a, d.b, d.c) : 0.0;
        case Shape::kUniform:
            return std::clamp((x - d.a) / (d.b - d.a), 0.0, 1.0);
        case Shape::kBeta:
            return boost::math::cdf(boost::math::beta_distribution<>(d.a, d.b),
                                    std::clamp(x, 0.0, 1.0));
        case Shape::kGamma:
            if (!is_positive) return 0.0;
            if (std::isinf(x)) return 1.0;
            return boost::math::cdf(boost::math::gamma_distribution<>(d.a, d.b), x);
        case Shape::kWeibull:
            return is_positive ? -std::expm1(-std::pow(x / d.b, d.a)) : 0.0;
        case Shape::kTriangular:
            return find_share_in_triangle(d, x);
        case Shape::kWrappedNormal:
            return find_share_on_circle(find_offset(x, d.a), d.b);
        case Shape::kVonMises:
            return von_mises_cdf(find_offset(x, d.a), d.b);
        case Shape::kTable:
            return find_share_in_table(d.table, x);
        case Shape::kSamples:
            return find_share_of_samples(d.table, x);
        case Shape::kBernoulli:
            return x < 0.0 ? 0.0 : (x < 1.0 ? 1.0 - d.a : 1.0);
    }
    return 0.0;
}

}  // namespace flattail::chance
