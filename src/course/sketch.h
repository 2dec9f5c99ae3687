// A plausible road for a course of which only distance, climb and laps are known.
#pragma once

#include <string>

#include "base/problem_list.h"
#include "course/path.h"

namespace flattail::course {

/// Length of one hill with its valley (assumption: rolling country).
inline constexpr double kHillLength_m = 3000.0;
/// Mean slope of the climbs while there is flat road left (assumption).
inline constexpr double kClimbSlope = 0.03;

/// Adds an error for each rule that the three numbers break.
void check_sketch(const RawSketch& sketch, const std::string& file,
                  base::ProblemList& problems);

/// Sine-shaped hills of one height with flat road between them, mirrored where the road
/// turns back. Each lap goes out and back to the east, then out and back to the north, so
/// that no wind direction is favoured.
/// Accuracy: length, climb and laps are met to rounding
/// Source:  METHOD 7.8
Path draw_sketch(const RawSketch& sketch, double spacing_m);

}  // namespace flattail::course
