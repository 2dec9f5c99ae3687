// Checks of random numbers with a false-alarm chance of at most 1e-6 each, exact or by a
// proven inequality. They return a verdict, so that a twin can show that they can fail.
#pragma once

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>
#include <cstddef>
#include <functional>
#include <vector>

namespace flattail::test {

constexpr double kFalseAlarm = 1e-6;
constexpr double kStandardErrors = 4.9;  // two-sided normal chance 9.6e-7

/// Null: all cells equally likely. The chi-square law needs about 5 expected per cell;
/// here there are hundreds. Fails on both sides: too even is as wrong as too uneven.
inline bool is_even(const std::vector<int>& counts) {
    double total = 0.0;
    for (const int count : counts) total += count;
    const double expected = total / static_cast<double>(counts.size());
    double statistic = 0.0;
    for (const int count : counts) {
        statistic += (count - expected) * (count - expected) / expected;
    }
    const boost::math::chi_squared law(static_cast<double>(counts.size() - 1));
    return statistic < quantile(complement(law, kFalseAlarm / 2.0)) &&
           statistic > quantile(law, kFalseAlarm / 2.0);
}

/// Null: independent uniforms. 12 (u - 1/2)(v - 1/2) has mean 0 and variance exactly 1.
inline bool are_uncorrelated(const std::vector<double>& u, const std::vector<double>& v) {
    double sum = 0.0;
    for (std::size_t i = 0; i < u.size(); ++i) sum += 12.0 * (u[i] - 0.5) * (v[i] - 0.5);
    return std::abs(sum) / std::sqrt(static_cast<double>(u.size())) <= kStandardErrors;
}

/// Null: this mean, with a known standard deviation of one draw.
inline bool has_mean(const std::vector<double>& sample, double mean, double sd) {
    double sum = 0.0;
    for (const double x : sample) sum += x - mean;
    return std::abs(sum) <=
           kStandardErrors * sd * std::sqrt(static_cast<double>(sample.size()));
}

/// Null: drawn from this continuous distribution function. Kolmogorov's distance against
/// the bound of Dvoretzky, Kiefer and Wolfowitz with Massart's constant (1990), which
/// holds for every sample size.
inline bool follows(std::vector<double> sample,
                    const std::function<double(double)>& cdf) {
    std::sort(sample.begin(), sample.end());
    const auto n = static_cast<double>(sample.size());
    double distance = 0.0;
    for (std::size_t i = 0; i < sample.size(); ++i) {
        const double share = cdf(sample[i]);
        distance = std::max({distance, share - static_cast<double>(i) / n,
                             static_cast<double>(i + 1) / n - share});
    }
    return distance <= std::sqrt(std::log(2.0 / kFalseAlarm) / (2.0 * n));
}

/// Null: both samples from one distribution. The same inequality for each sample, half of
/// the false-alarm chance apiece.
inline bool follow_the_same(std::vector<double> a, std::vector<double> b) {
    std::sort(a.begin(), a.end());
    std::sort(b.begin(), b.end());
    double distance = 0.0;
    for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
        const double x = std::min(a[i], b[j]);
        while (i < a.size() && a[i] <= x) ++i;
        while (j < b.size() && b[j] <= x) ++j;
        distance = std::max(
            distance, std::abs(static_cast<double>(i) / static_cast<double>(a.size()) -
                               static_cast<double>(j) / static_cast<double>(b.size())));
    }
    const double scale = std::sqrt(std::log(4.0 / kFalseAlarm) / 2.0);
    return distance <= scale / std::sqrt(static_cast<double>(a.size())) +
                           scale / std::sqrt(static_cast<double>(b.size()));
}

}  // namespace flattail::test
