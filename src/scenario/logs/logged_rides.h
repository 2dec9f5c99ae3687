// What a fitted log of flats says to the setups of a scenario.
#pragma once

#include <string>
#include <vector>

#include "scenario/draft.h"
#include "scenario/setups/parts.h"

namespace flattail::scenario {

/// `flats.cuts`: factors on cuts by inner, for inners that do not state their own. Needs
/// the setups.
void read_cuts_by_inner(Draft& draft, Table& flats, const Parts& parts);

/// `flats.log`: what the logged rides were on. Warns where a setup or the course has
/// something that no logged ride had.
void compare_with_log(Draft& draft, Table& flats);

}  // namespace flattail::scenario
