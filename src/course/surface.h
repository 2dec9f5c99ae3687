// The kinds of road surface a stretch can have.
#pragma once

#include <array>
#include <string_view>

namespace flattail::course {

/// Road surface, from the best to the worst.
enum class Surface { kSmooth, kOrdinary, kCoarse, kCobbles };

inline constexpr int kSurfaceCount = 4;
inline constexpr std::array<std::string_view, kSurfaceCount> kSurfaceNames = {
    "smooth", "ordinary", "coarse", "cobbles"};

constexpr int index_of(Surface surface) { return static_cast<int>(surface); }

}  // namespace flattail::course
