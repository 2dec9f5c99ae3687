// When the ride begins: a time of day, or the day's own swim before it.
#pragma once

#include "scenario/draft.h"

namespace flattail::scenario {

/// `race.bike_start`, or `race.wave`, `race.swim` and `race.transition`, whose sum the
/// ride starts at. Swim and transition may be uncertain: then each day has a start of its
/// own, and the model's start clock is that of a typical day.
/// Source:  METHOD 8.8
void read_start_clock(Draft& draft, Table& race);

/// "08:05", or "08:05:30" where there are seconds; days after the first are left out.
std::string write_clock(double clock_s);

}  // namespace flattail::scenario
