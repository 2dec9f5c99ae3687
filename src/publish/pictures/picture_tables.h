// The tables that only pictures need, drawn from the quantiles of each setup.
#pragma once

#include <string>
#include <vector>

#include "publish/pictures/time_axis.h"

namespace flattail::publish {

/// Days that one dot picture shows per setup; each stands for 2 race days in 100.
/// Source:  Fernandes et al. 2018 (CHI): people decide best from 50 or 20 dots
constexpr int kDots = 50;

/// How dots are laid on an axis, in pixels.
struct DotLayout {
    double width_px = 0.0;  // of the picture
    double pad_px = 0.0;    // left and right of the plot
    double later_px = 0.0;  // the column beyond the axis
    double dot_px = 0.0;    // diameter and step
};

enum class DotKind { kGoalMet = 0, kLater = 1, kNoFinish = 2 };

struct Dot {
    double day = 0.0;       // this many race days in 100 are faster
    double finish_s = 0.0;  // infinite without a finish
    double drawn_s = 0.0;   // where on the axis it stands
    int height = 0;         // from the bottom, 1 first
    DotKind kind = DotKind::kGoalMet;
};

/// The dots of one setup. No bin reaches across the goal.
std::vector<Dot> lay_dots(const std::vector<double>& quantiles_s, const TimeAxis& axis,
                          const DotLayout& layout, double goal_s);

/// "setup_number,finish_s,days_in_100_per_min,setup": a smooth curve per setup.
struct Curves {
    std::string csv;
    double most = 0.0;         // highest point of any
    std::vector<double> peak;  // [shown] the curve at the typical day
};
Curves draw_curves(const Findings& findings, const std::vector<int>& shown,
                   const TimeAxis& axis);

std::string write_dots_csv(const Findings& findings, const std::vector<int>& shown,
                           const TimeAxis& axis, const DotLayout& layout,
                           int& tallest_stack);

/// Race days in 100 that are slower, from half of them down; "mark" numbers every place
/// where a curve carries the shape of its row.
std::string write_slower_csv(const Findings& findings, const std::vector<int>& shown);

std::string write_intervals_csv(const Findings& findings);

}  // namespace flattail::publish
