// A GPX course of the repository, smoothed, for tests of rooms behind the files.
#pragma once

#include <memory>
#include <string>

#include "course/course.h"

namespace flattail::support {

/// `path` from the top of the repository.
std::shared_ptr<const course::Course> read_course(const std::string& path);

}  // namespace flattail::support
