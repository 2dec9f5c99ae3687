// Endings of a ride in words.
#pragma once

#include "ride/roadside/ending.h"

namespace flattail::study {

/// "finished", "no spare left", "over the cutoff" ...
const char* name_ending(ride::Ending ending);

}  // namespace flattail::study
