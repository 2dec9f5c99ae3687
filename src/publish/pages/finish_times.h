// Race days out of 100 by finish time, as a line of numbers per setup.
#pragma once

#include <string>
#include <vector>

#include "flattail/publish.h"

namespace flattail::publish {

/// Columns of finish times; neighbours are joined until they fit, and a bar stands where
/// the first goal is.
std::vector<std::string> lay_finish_times(const Findings& findings,
                                          const PageOptions& options);

}  // namespace flattail::publish
