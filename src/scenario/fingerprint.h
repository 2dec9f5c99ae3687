// A short text that changes with everything that can move a result.
#pragma once

#include <string>

#include "scenario/model.h"

namespace flattail::scenario {

/// Sixteen hexadecimal digits over the resolved values and the course; file names, labels
/// and places do not count.
/// Source:  FNV-1a, 64 bits (Fowler, Noll, Vo; RFC 9923)
std::string make_fingerprint(const Model& model);

}  // namespace flattail::scenario
