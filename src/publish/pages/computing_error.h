// How exactly the figures of a study are computed, in one line.
#pragma once

#include <string>

#include "flattail/findings.h"

namespace flattail::publish {

enum class Reader { kRacer, kRider };  // of the page, of a brief

/// "Computing error, 19 in 20 below: typical day 3 s, NET under 1 s, counts 0.4."; a
/// brief has neither NET nor counts and says "average difference" and "goal days".
std::string describe_error(const Findings& findings, Reader reader = Reader::kRacer);

}  // namespace flattail::publish
