// Takes the measuring noise out of a path, and no more than that.
#pragma once

#include <vector>

#include "course/path.h"

namespace flattail::course {

/// Distance between the cells that are smoothed. Half of the shortest bend's radius; a
/// smaller one costs time and shows nothing new.
inline constexpr double kCellSpacing_m = 5.0;
/// No more cells than this; a course over 1,000 km gets longer cells.
inline constexpr int kMaxCells = 200000;

/// Waves of this length keep half their height. The lower bounds hold for a track without
/// noise, the upper ones for a straight or flat road with any noise.
struct CutoffRange {
    double shortest_m;
    double longest_m;
};
/// 40 m turns the right angle of a drawn route into a line of 11.5 m radius, about what a
/// rider takes from kerb to kerb (assumption); 300 m leaves no bend from 3 m of noise.
inline constexpr CutoffRange kPlanCutoff = {40.0, 300.0};
/// 60 m is shorter than the vertical curves of built roads (common practice); 400 m
/// leaves slopes of .3 % from 1.5 m of noise.
inline constexpr CutoffRange kHeightCutoff = {60.0, 400.0};

struct PathErrors {
    double position_m;  ///< standard deviation of one horizontal coordinate
    double height_m;
};

struct SmoothPath {
    Path path;  ///< evenly spaced, distance_m along its own line
    double plan_cutoff_m = 0.0;
    double height_cutoff_m = 0.0;
    double plan_noise_m = 0.0;  ///< as seen; infinite when nothing can be said
    double height_noise_m = 0.0;
};

/// The path that bends least among those that differ from the given one by the stated
/// errors (or by the noise that can be seen, if that is less).
/// Range:   a path of some length, whose points may be dense, sparse or uneven
/// Accuracy: straight road with 2 m noise each 10 m: length within .1 %
/// Source:  METHOD 7.2 and 7.3 (Whittaker 1923; Eilers 2003; Morozov 1966)
SmoothPath smooth_path(const Path& path, PathErrors errors);

/// Whittaker's smoother: minimises sum (y - x)^2 + lambda sum (second difference of x)^2.
/// Shapes:  columns[k][cell], all of one length >= 3
/// Source:  METHOD 7.2 (Whittaker 1923, eq. in section 2)
std::vector<std::vector<double>> smooth_columns(
    const std::vector<std::vector<double>>& columns, double spacing_m, double cutoff_m);

enum class NoiseMeasure {
    kMedian,     ///< blind to single bends
    kMeanSquare  ///< sees the rare steps of rounded heights
};

/// Standard deviation of the noise in evenly spaced readings, from fourth differences
/// over stride readings (they are blind to anything that is smooth over 4 strides).
/// Infinite when there are too few readings to tell.
/// Source: METHOD 7.3 (von Neumann 1941, higher differences)
double estimate_noise(const std::vector<std::vector<double>>& columns, int stride,
                      NoiseMeasure measure);

}  // namespace flattail::course
