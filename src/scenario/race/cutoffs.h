// Until when a race stays open: after the start of the ride or by the clock, at the
// finish or on the way.
#pragma once

#include "scenario/draft.h"

namespace flattail::scenario {

/// `race.cutoff`, one or a list of: "4:00:00" after the start, "14:30" by the clock,
/// { by = "11:10", at = "45 km" }, { within = "1:40:00", at = "45 km" }.
void read_cutoffs(Draft& draft, Table& race);

/// Needs the course: refuses places off it and times that nobody rides to; finds the time
/// that a day over the cutoff counts as.
void check_cutoffs(Draft& draft, Table& race);

/// Refuses a time over a distance that means a speed nobody keeps alone.
void check_mean_speed(base::ProblemList& problems, const input::Node& node,
                      const std::string& what, double time_s, double distance_m);

}  // namespace flattail::scenario
