// Stretches laid over a course: checked, then cut into the pieces they cover.
#pragma once

#include <vector>

#include "base/problem_list.h"
#include "course/course.h"

namespace flattail::course {

/// Adds an error for each rule that a stretch breaks; ends up to 1 % of the course beyond
/// the finish are pulled back to it with a warning.
std::vector<Stretch> check_stretches(const std::vector<Stretch>& stretches,
                                     const std::string& file, double length_m,
                                     base::ProblemList& problems);

/// Start, finish and every end of a stretch, rising, none twice.
std::vector<double> list_borders(const std::vector<Stretch>& stretches, double length_m);

/// Gives each piece the road of the last stretch over its middle, field by field.
void lay_stretches(Course& course, const OrdinaryRoad& road);

}  // namespace flattail::course
