// The values a scenario uses, as `check` lists them.
#pragma once

#include <string>
#include <vector>

#include "publish/pages/check_page.h"

namespace flattail::publish {

/// One section per group. With weights: what moves the answer first, then what hardly
/// does, then what is certain; without: by how much stands behind each value.
std::vector<std::vector<std::string>> lay_values(const CheckFacts& facts,
                                                 const PageOptions& options);

}  // namespace flattail::publish
