// What `course` shows: the course in words and its profile in block characters.
#pragma once

#include <string>
#include <vector>

#include "course/course.h"
#include "flattail/publish.h"

namespace flattail::publish {

/// Everything the page tells, taken from a scenario.
struct CourseFacts {
    std::string name;
    std::vector<CourseLine> lines;
    std::vector<Problem> warnings;
};

std::string lay_course_page(const CourseFacts& facts, const course::Course& course,
                            const PageOptions& options);

/// The elevation over distance, `rows` lines high, with axes, and marks under coarse
/// roads and cobbles. Each column stands for the mean elevation of its stretch.
std::vector<std::string> draw_profile(const course::Course& course, int width, int rows);

}  // namespace flattail::publish
