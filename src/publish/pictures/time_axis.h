// An axis of finish times with round ticks.
#pragma once

#include <string>
#include <vector>

#include "flattail/findings.h"

namespace flattail::publish {

struct TimeAxis {
    double low_s = 0.0;
    double high_s = 60.0;
    std::vector<double> ticks_s;
};

/// From `low_s` to `high_s` with at most `most_ticks` ticks at round clock steps.
/// Range: low_s < high_s
TimeAxis make_time_axis(double low_s, double high_s, int most_ticks);

/// "2:35", or "2:35:30" where ticks lie between minutes.
std::vector<std::string> label_ticks(const TimeAxis& axis);

/// The finish times that matter: from the fastest 1 in 200 to the slowest 1 in 60 of any
/// setup, and the goal when it is near. Empty when nobody finishes.
/// Shapes: shown[row] = index of a setup
Interval find_time_range(const Findings& findings, const std::vector<int>& shown);

}  // namespace flattail::publish
