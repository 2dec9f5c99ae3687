#include "flattail/version.h"

namespace flattail {

std::string version() { return FLATTAIL_VERSION; }

}  // namespace flattail
