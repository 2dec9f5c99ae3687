#include "findings/sample/histogram.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace flattail::findings {
namespace {

// Steps a clock face knows; a wider spread takes whole hours.
constexpr std::array<double, 12> kRoundSteps_s{5,   10,  15,  30,   60,   120,
                                               300, 600, 900, 1800, 3600, 7200};
constexpr double kHour_s = 3600;

// The middle 96 % is what the edges must cover: the outer 2 % go into the open end bins.
constexpr double kOuterShare = 0.02;

constexpr double kInfinity = std::numeric_limits<double>::infinity();

// Largest finite value, where the wanted quantile is a day without a finish.
double highest_wanted(const WeightedSample& sample) {
    const double wanted = sample.quantile(1 - kOuterShare);
    if (std::isfinite(wanted)) return wanted;
    const std::size_t finite = sample.count_up_to(std::numeric_limits<double>::max());
    return finite == 0 ? kInfinity : sample.value_at(finite - 1);
}

struct StepRange {
    double first = 0, last = 0;  // whole steps from the anchor
};

StepRange cover(const Interval& wanted, double anchor_s, double step_s) {
    return {std::floor((wanted.low - anchor_s) / step_s),
            std::ceil((wanted.high - anchor_s) / step_s)};
}

double choose_step(const Interval& wanted, double anchor_s) {
    const auto fits = [&](double step_s) {
        const StepRange range = cover(wanted, anchor_s, step_s);
        return range.last - range.first <= kMostInnerBins;
    };
    for (const double step_s : kRoundSteps_s)
        if (fits(step_s)) return step_s;
    double step_s = kRoundSteps_s.back();
    while (!fits(step_s)) step_s += kHour_s;
    return step_s;
}

}  // namespace

Histogram count_by_edges(const WeightedSample& sample, std::span<const double> edge) {
    FLATTAIL_EXPECTS(!edge.empty() && std::is_sorted(edge.begin(), edge.end()));
    Histogram histogram;
    histogram.edge.assign(edge.begin(), edge.end());
    double from = -kInfinity;
    for (const double to : edge) {
        histogram.share.push_back(sample.share_between(from, to));
        from = to;
    }
    histogram.share.push_back(sample.share_between(from, kInfinity));
    return histogram;
}

std::vector<double> choose_time_edges(std::span<const WeightedSample* const> samples,
                                      double anchor_s) {
    FLATTAIL_EXPECTS(!samples.empty());
    Interval wanted{kInfinity, -kInfinity};
    for (const WeightedSample* sample : samples) {
        const double low = sample->quantile(kOuterShare), high = highest_wanted(*sample);
        if (!std::isfinite(low) || !std::isfinite(high)) continue;
        wanted.low = std::min(wanted.low, low);
        wanted.high = std::max(wanted.high, high);
    }
    if (wanted.low > wanted.high) return {anchor_s};
    const double step_s = choose_step(wanted, anchor_s);
    const StepRange range = cover(wanted, anchor_s, step_s);
    std::vector<double> edge;
    for (double k = range.first; k <= range.last; k += 1)
        edge.push_back(anchor_s + k * step_s);
    return edge;
}

}  // namespace flattail::findings
