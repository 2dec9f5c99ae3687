#include "findings/sample/means.h"

#include <cmath>

namespace flattail::findings {

Estimate estimate_mean(std::span<const double> values, const Design& design) {
    FLATTAIL_EXPECTS(values.size() == design.weight.size());
    double sum = 0;
    for (std::size_t day = 0; day < values.size(); ++day)
        sum += design.weight[day] * values[day];
    const double mean = sum / total_weight(design);
    const auto influence = [&](std::size_t day) { return values[day] - mean; };
    return {mean, standard_error(design, influence)};
}

Moments measure_moments(std::span<const double> values, std::span<const double> weight) {
    FLATTAIL_EXPECTS(values.size() == weight.size());
    double total = 0, sum = 0;
    for (std::size_t day = 0; day < values.size(); ++day) {
        total += weight[day];
        sum += weight[day] * values[day];
    }
    if (total == 0) return {};
    double mean = sum / total;
    double residual = 0;
    for (std::size_t day = 0; day < values.size(); ++day)
        residual += weight[day] * (values[day] - mean);
    mean += residual / total;
    Moments moments{total, mean, 0, 0, 0};
    for (std::size_t day = 0; day < values.size(); ++day) {
        const double d = values[day] - mean;
        const double square = weight[day] * d * d;
        moments.m2 += square;
        moments.m3 += square * d;
        moments.m4 += square * d * d;
    }
    return moments;
}

Moments merge(const Moments& first, const Moments& second) {
    if (first.weight == 0) return second;
    if (second.weight == 0) return first;
    const double a = first.weight, b = second.weight, w = a + b;
    const double d = second.mean - first.mean;
    const double e = d / w;
    Moments both;
    both.weight = w;
    both.mean = first.mean + b * e;
    both.m2 = first.m2 + second.m2 + a * b * d * e;
    both.m3 = first.m3 + second.m3 + a * b * (a - b) * d * e * e +
              3 * e * (a * second.m2 - b * first.m2);
    both.m4 = first.m4 + second.m4 + a * b * (a * a - a * b + b * b) * d * e * e * e +
              6 * e * e * (a * a * second.m2 + b * b * first.m2) +
              4 * e * (a * second.m3 - b * first.m3);
    return both;
}

double population_variance(const Moments& moments) { return moments.m2 / moments.weight; }

double sample_variance(const Moments& moments) {
    return moments.m2 / (moments.weight - 1);
}

double skewness(const Moments& moments) {
    return std::sqrt(moments.weight) * moments.m3 / (moments.m2 * std::sqrt(moments.m2));
}

double excess_kurtosis(const Moments& moments) {
    return moments.weight * moments.m4 / (moments.m2 * moments.m2) - 3;
}

Estimate estimate_sd(std::span<const double> values, const Design& design) {
    const Moments moments = measure_moments(values, design.weight);
    const double variance = population_variance(moments), sd = std::sqrt(variance);
    if (sd <= 0.0) return {0.0, 0.0};
    const double error = standard_error(design, [&](std::size_t day) {
        const double off = values[day] - moments.mean;
        return (off * off - variance) / (2.0 * sd);
    });
    return {sd, error};
}

}  // namespace flattail::findings
