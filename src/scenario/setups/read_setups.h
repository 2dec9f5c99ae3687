// The setups to choose from.
#pragma once

#include "scenario/draft.h"
#include "scenario/setups/parts.h"

namespace flattail::scenario {

/// What setups draw on; each may be null.
struct SetupNodes {
    const input::Node* setups = nullptr;  // [[setup]]
    const input::Node* kit = nullptr;     // top-level `kit`, for setups without their own
    const input::Node* rim = nullptr;     // top-level `rim`, likewise
    const input::Node* owned = nullptr;   // names of the setups that this rider owns
};

/// The setups, with `like` resolved. Needs the course.
void read_setups(Draft& draft, const SetupNodes& nodes, Parts& parts,
                 double fitting_ratio);

}  // namespace flattail::scenario
