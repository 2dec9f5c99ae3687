// Heights for the ends of segments that hide the hills between them with the least harm.
#pragma once

#include <vector>

#include "course/course.h"

namespace flattail::course {

/// Heights at the borders of the broken line that fits the road best in the sense of
/// least squares; the first and last height are the road's own.
///
/// A line through the road's own heights lies below every crest and above every valley.
/// Crests are ridden slowly, so that the ride would come out too fast: .05 % on rolling
/// roads in segments of 130 m. The fitted line errs to both sides inside each segment.
/// Shapes:  borders_m rising from 0 to course.length_m
/// Accuracy: within the rounding of a road that is straight between the borders
/// Source:  METHOD 7.7
std::vector<double> fit_heights(const Course& course,
                                const std::vector<double>& borders_m);

}  // namespace flattail::course
