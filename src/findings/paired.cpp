#include "findings/paired.h"

#include <algorithm>
#include <cmath>

#include "findings/sample/means.h"

namespace flattail::findings {
namespace {

template <class Value>
Estimate estimate_share(const Design& design, Value value) {
    double sum = 0;
    for (std::size_t day = 0; day < design.weight.size(); ++day)
        sum += design.weight[day] * value(day);
    const double share = sum / total_weight(design);
    return {share,
            standard_error(design, [&](std::size_t day) { return value(day) - share; })};
}

// Correlation of the errors of two shares of the same days.
double error_correlation(const WeightedSample& a, double edge_a, const WeightedSample& b,
                         double edge_b) {
    const double share_a = a.cdf(edge_a).value, share_b = b.cdf(edge_b).value;
    const auto influence_a = [&](std::size_t day) {
        return (a.values()[day] <= edge_a ? 1.0 : 0.0) - share_a;
    };
    const auto influence_b = [&](std::size_t day) {
        return (b.values()[day] <= edge_b ? 1.0 : 0.0) - share_b;
    };
    const double se_a = a.cdf(edge_a).standard_error;
    const double se_b = b.cdf(edge_b).standard_error;
    if (se_a == 0 || se_b == 0) return 0;
    const double se_sum = standard_error(
        a.design(), [&](std::size_t day) { return influence_a(day) + influence_b(day); });
    const double covariance = 0.5 * (se_sum * se_sum - se_a * se_a - se_b * se_b);
    return std::clamp(covariance / (se_a * se_b), -1.0, 1.0);
}

}  // namespace

std::vector<double> difference_by_day(std::span<const double> judged_a_s,
                                      std::span<const double> judged_b_s) {
    FLATTAIL_EXPECTS(judged_a_s.size() == judged_b_s.size());
    std::vector<double> difference(judged_a_s.size());
    for (std::size_t day = 0; day < difference.size(); ++day)
        difference[day] = judged_a_s[day] - judged_b_s[day];
    return difference;
}

PairedFindings compare_pair(const SetupTimes& a, const SetupTimes& b,
                            const Design& design) {
    const auto x = a.finish_s, y = b.finish_s;
    FLATTAIL_EXPECTS(x.size() == design.weight.size() && y.size() == x.size());
    const auto ends = [](double time_s) { return std::isfinite(time_s); };
    const auto one_if = [](bool holds) { return holds ? 1.0 : 0.0; };
    PairedFindings found;
    found.mean_difference_s =
        estimate_mean(difference_by_day(a.judged_s, b.judged_s), design);
    found.chance_faster = estimate_share(design, [&](std::size_t day) {
        return one_if(x[day] < y[day]) + 0.5 * one_if(x[day] == y[day]);
    });
    found.chance_tie =
        estimate_share(design, [&](std::size_t day) { return one_if(x[day] == y[day]); });
    found.both_finish = estimate_share(
        design, [&](std::size_t day) { return one_if(ends(x[day]) && ends(y[day])); });
    found.only_a_finishes = estimate_share(
        design, [&](std::size_t day) { return one_if(ends(x[day]) && !ends(y[day])); });
    found.only_b_finishes = estimate_share(
        design, [&](std::size_t day) { return one_if(!ends(x[day]) && ends(y[day])); });
    found.neither_finishes = estimate_share(
        design, [&](std::size_t day) { return one_if(!ends(x[day]) && !ends(y[day])); });
    return found;
}

Estimate estimate_quantile_difference(const WeightedSample& a, const WeightedSample& b,
                                      double p) {
    FLATTAIL_EXPECTS(a.size() == b.size());
    const Estimate at_a = a.estimate_quantile(p), at_b = b.estimate_quantile(p);
    const double correlation = error_correlation(a, at_a.value, b, at_b.value);
    const double se_a = at_a.standard_error, se_b = at_b.standard_error;
    const double variance = se_a * se_a + se_b * se_b - 2 * correlation * se_a * se_b;
    // Rounding may take a variance of zero below zero; an unknown one must stay unknown.
    const double error = variance < 0 ? 0 : std::sqrt(variance);
    return {at_a.value - at_b.value, error};
}

Estimate estimate_worst_difference(const WeightedSample& a, const WeightedSample& b,
                                   double level) {
    FLATTAIL_EXPECTS(a.size() == b.size() && level > 0 && level < 1);
    const double from_a = a.quantile(level), from_b = b.quantile(level);
    std::vector<double> difference(a.size());
    for (std::size_t day = 0; day < difference.size(); ++day) {
        const double beyond = std::fmax(a.values()[day] - from_a, 0) -
                              std::fmax(b.values()[day] - from_b, 0);
        difference[day] = from_a - from_b + beyond / (1 - level);
    }
    return estimate_mean(difference, a.design());
}

}  // namespace flattail::findings
