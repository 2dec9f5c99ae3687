// The part of the page of `why` that tells what else may be done with the advised setup.
#pragma once

#include <string>
#include <vector>

#include "flattail/why.h"

namespace flattail::publish {

/// As it is, and the best by average time of those that break no rule and are beaten by
/// nothing on both counts; at most six.
std::vector<std::string> lay_variants(const WhyFindings& why, const PageOptions& options);

}  // namespace flattail::publish
