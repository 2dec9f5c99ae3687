// A recorded track made fit for use: what cannot be right is taken out and reported.
#pragma once

#include <string>
#include <vector>

#include "base/problem_list.h"
#include "course/request.h"

namespace flattail::course {

/// The points that can be used, each with a height; doubtful ones become warnings (points
/// twice, times that run backwards, spikes, gaps, missing heights), unusable tracks
/// errors (fewer than 3 different points, coordinates off the globe).
/// Source: METHOD 7.4
std::vector<RawPoint> clean_track(const RawTrack& track, const std::string& file,
                                  base::ProblemList& problems);

/// Adds an error for each rule that a profile breaks.
void check_profile(const RawProfile& profile, const std::string& file,
                   base::ProblemList& problems);

}  // namespace flattail::course
