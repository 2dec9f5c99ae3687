#include "findings/knowledge/nested.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/expects.h"

namespace flattail::findings {

namespace {

// Averages of each setup over the first and the second half of a state's days.
struct Halves {
    std::vector<double> first, second;
};

// A state's best average of all its days, and the mean of the best of either half.
struct StateBest {
    double whole = 0, halves = 0;
    std::vector<double> average;
};

StateBest look_at_state(const Halves& halves, double sign) {
    StateBest best;
    double first = 0, second = 0;
    for (std::size_t k = 0; k < halves.first.size(); ++k) {
        const double average = 0.5 * (halves.first[k] + halves.second[k]);
        best.average.push_back(average);
        best.whole = k == 0 ? sign * average : std::max(best.whole, sign * average);
        first = k == 0 ? sign * halves.first[k] : std::max(first, sign * halves.first[k]);
        second =
            k == 0 ? sign * halves.second[k] : std::max(second, sign * halves.second[k]);
    }
    best.halves = 0.5 * (first + second);
    return best;
}

double mean_of(std::span<const double> values) {
    double sum = 0;
    for (const double value : values) sum += value;
    return sum / static_cast<double>(values.size());
}

std::vector<StateBest> ride_states(const NestedPlan& plan, std::size_t setups,
                                   const NestedDays& days, double sign) {
    FLATTAIL_EXPECTS(plan.states > 1 && plan.days > 1 && plan.days % 2 == 0);
    std::vector<std::vector<double>> figure(setups, std::vector<double>(plan.days));
    const std::vector<std::span<double>> views(figure.begin(), figure.end());
    std::vector<StateBest> states;
    for (std::size_t state = 0; state < plan.states; ++state) {
        days(state, views);
        Halves halves;
        for (const auto& row : figure) {
            const std::span<const double> all(row);
            halves.first.push_back(mean_of(all.first(plan.days / 2)));
            halves.second.push_back(mean_of(all.last(plan.days / 2)));
        }
        states.push_back(look_at_state(halves, sign));
    }
    return states;
}

Estimate value_states(const std::vector<StateBest>& states, std::size_t setups,
                      double sign, double correction) {
    std::size_t blind = 0;
    std::vector<double> overall(setups);
    for (const StateBest& state : states)
        for (std::size_t k = 0; k < setups; ++k) overall[k] += sign * state.average[k];
    blind = static_cast<std::size_t>(std::max_element(overall.begin(), overall.end()) -
                                     overall.begin());
    double sum = 0, squares = 0;
    for (const StateBest& state : states) {
        const double best = state.whole + correction * (state.whole - state.halves);
        const double gain = best - sign * state.average[blind];
        sum += gain;
        squares += gain * gain;
    }
    const double count = static_cast<double>(states.size());
    const double mean = sum / count;
    return {mean, std::sqrt((squares / count - mean * mean) / (count - 1))};
}

double sign_of(Better better) { return better == Better::kSmaller ? -1 : 1; }

}  // namespace

Estimate value_by_nested_run(const NestedPlan& plan, std::size_t setups,
                             const NestedDays& days, Better better) {
    const double sign = sign_of(better);
    return value_states(ride_states(plan, setups, days, sign), setups, sign, 1);
}

Estimate value_by_raw_nested_run(const NestedPlan& plan, std::size_t setups,
                                 const NestedDays& days, Better better) {
    const double sign = sign_of(better);
    return value_states(ride_states(plan, setups, days, sign), setups, sign, 0);
}

}  // namespace flattail::findings
