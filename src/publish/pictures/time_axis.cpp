#include "publish/pictures/time_axis.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/expects.h"

namespace flattail::publish {

namespace {

constexpr std::array<double, 17> kSteps_s{
    1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1200, 1800, 3600, 7200, 14400, 28800};
// Shares of race days at which the axis ends.
constexpr double kFastest = 0.005;
constexpr double kSlowest = 0.985;
// A goal further out than this share of the range is named at the edge instead.
constexpr double kNear = 0.35;
// Narrower than this an axis would magnify computing error.
constexpr double kShortest_s = 20.0;

double find_step(double range_s, int most_ticks) {
    for (const double step_s : kSteps_s) {
        if (range_s / step_s + 1.0 <= most_ticks) return step_s;
    }
    return 3600.0 * std::ceil(range_s / 3600.0 / std::max(most_ticks - 1, 1));
}

// The last finish at or below the share `most`, or nothing.
void take_in(const std::vector<double>& quantiles_s, Interval& range_s) {
    const auto count = static_cast<double>(quantiles_s.size());
    for (std::size_t i = 0; i < quantiles_s.size(); ++i) {
        const double share = (static_cast<double>(i) + 0.5) / count;
        if (share < kFastest || share > kSlowest || std::isinf(quantiles_s[i])) continue;
        range_s.low = std::min(range_s.low, quantiles_s[i]);
        range_s.high = std::max(range_s.high, quantiles_s[i]);
    }
}

}  // namespace

TimeAxis make_time_axis(double low_s, double high_s, int most_ticks) {
    FLATTAIL_EXPECTS(low_s < high_s && most_ticks >= 2);
    TimeAxis axis{low_s, high_s, {}};
    const double step_s = find_step(high_s - low_s, most_ticks);
    for (double tick = std::ceil(low_s / step_s) * step_s; tick <= high_s;
         tick += step_s) {
        axis.ticks_s.push_back(tick);
    }
    return axis;
}

std::vector<std::string> label_ticks(const TimeAxis& axis) {
    const auto whole = [](double tick) { return std::fmod(tick, 60.0) == 0.0; };
    const bool by_minutes = std::all_of(axis.ticks_s.begin(), axis.ticks_s.end(), whole);
    std::vector<std::string> labels;
    for (const double tick : axis.ticks_s) {
        const auto s = static_cast<long>(std::llround(tick));
        const long hours = s / 3600, minutes = s / 60 % 60, seconds = s % 60;
        labels.push_back(by_minutes
                             ? fmt::format("{}:{:02}", hours, minutes)
                             : fmt::format("{}:{:02}:{:02}", hours, minutes, seconds));
    }
    return labels;
}

Interval find_time_range(const Findings& findings, const std::vector<int>& shown) {
    Interval range_s{1e300, -1e300};
    for (const int setup : shown) {
        take_in(findings.setups[static_cast<std::size_t>(setup)].quantiles_s, range_s);
    }
    if (range_s.low > range_s.high) return {0.0, 0.0};
    const double margin_s =
        std::max(0.03 * (range_s.high - range_s.low), 0.5 * kShortest_s);
    range_s.low = std::max(range_s.low - margin_s, 0.0);
    range_s.high += margin_s;
    if (findings.goals_s.empty()) return range_s;
    const double goal_s = findings.goals_s.front();
    const double reach_s = kNear * (range_s.high - range_s.low);
    if (goal_s > range_s.high && goal_s < range_s.high + reach_s)
        range_s.high = goal_s + margin_s;
    if (goal_s < range_s.low && goal_s > range_s.low - reach_s)
        range_s.low = goal_s - margin_s;
    return range_s;
}

}  // namespace flattail::publish
