// What the readers of the two kinds of track file share.
#pragma once

#include <cstddef>
#include <optional>

#include "base/problem_list.h"
#include "input/text/text_file.h"
#include "input/tracks/track.h"

namespace flattail::input {

/// About 600,000 points; a larger file is most probably the wrong one.
inline constexpr std::size_t kMostTrackBytes = 64'000'000;

bool is_road_elevation(double elevation_m);

std::optional<Track> read_gpx_file(const TextFile& file, base::ProblemList& problems);

}  // namespace flattail::input
