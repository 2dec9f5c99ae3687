#include "evidence/flats/repair_posterior.h"

#include <algorithm>
#include <cmath>

#include "chance/make_distribution.h"
#include "evidence/flats/rate_grid.h"

namespace flattail::evidence {

namespace {

// Medians within a factor of 5 of the belief, in steps of 2 %; widths of the logarithm
// within 4 sd.
constexpr double kReach = 5.0;
constexpr std::size_t kMedians = 161;
constexpr int kWidths = 33;
constexpr double kFarWidth = 4.0;

struct Times {
    double count = 0.0, mean_log = 0.0, square = 0.0;
};

Times sum_up(const std::vector<double>& times_s) {
    Times t;
    t.count = static_cast<double>(times_s.size());
    for (const double time : times_s) t.mean_log += std::log(time) / t.count;
    for (const double time : times_s) {
        t.square += std::pow(std::log(time) - t.mean_log, 2);
    }
    return t;
}

}  // namespace

LoggedRepairs fit_repairs(const std::vector<double>& times_s,
                          const RepairBeliefs& beliefs) {
    const Times times = sum_up(times_s);
    const double sd =
        std::log((1 + beliefs.within) / (1 - beliefs.within)) / (2 * chance::kScoreOf95);
    LogGrid medians;
    medians.first = beliefs.median_s / kReach;
    medians.size = static_cast<int>(kMedians);
    medians.step = 2 * std::log(kReach) / (medians.size - 1);
    // Logarithms first: many times leave weights too small for a double.
    std::vector<double> logs, widths;
    for (int j = 0; j < kWidths; ++j) {
        const double score = kFarWidth * (2.0 * j / (kWidths - 1) - 1.0);
        widths.push_back(std::log(beliefs.spread) *
                         std::exp(beliefs.spread_doubt * score));
        for (int k = 0; k < medians.size; ++k) {
            const double log_median = std::log(medians.at(k));
            const double off = (log_median - std::log(beliefs.median_s)) / sd;
            const double miss = times.count * std::pow(log_median - times.mean_log, 2);
            logs.push_back(-0.5 * (score * score + off * off) -
                           times.count * std::log(widths.back()) -
                           0.5 * (times.square + miss) / std::pow(widths.back(), 2));
        }
    }
    const double top = *std::max_element(logs.begin(), logs.end());
    std::vector<double> weights(kMedians);
    double log_width = 0.0, sum = 0.0;
    for (std::size_t i = 0; i < logs.size(); ++i) {
        const double weight = std::exp(logs[i] - top);
        weights[i % kMedians] += weight;
        log_width += weight * std::log(widths[i / kMedians]);
        sum += weight;
    }
    normalise(weights);
    LoggedRepairs repairs;
    repairs.count = static_cast<std::int64_t>(times_s.size());
    repairs.median_s = summarise_weights(medians, weights);
    repairs.spread = std::exp(std::exp(log_width / sum));
    return repairs;
}

}  // namespace flattail::evidence
