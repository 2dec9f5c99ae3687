// The kinds of road surface a stretch can have, with their numbers and names.
#pragma once

#include <array>
#include <string_view>

#include "physics/rolling.h"

namespace flattail::course {

using physics::Surface;

inline constexpr int kSurfaceCount = 4;
inline constexpr std::array<std::string_view, kSurfaceCount> kSurfaceNames = {
    "smooth", "ordinary", "coarse", "cobbles"};

constexpr int index_of(Surface surface) { return static_cast<int>(surface); }

}  // namespace flattail::course
