// What happened on a ride, in a rider's words.
#pragma once

#include <string>

#include "ride/trace.h"

namespace flattail::study {

/// "rear flat: a cut, at speed", "tube changed in 8:32, second try".
std::string describe_event(const ride::TraceEvent& event);

}  // namespace flattail::study
