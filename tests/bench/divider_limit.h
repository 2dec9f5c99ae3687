// How fast this processor takes square roots and divides when it does nothing else: what
// no ride that needs one root and two divides can beat.
#pragma once

#include "base/instruction_set.h"

namespace flattail::bench {

/// Lanes of one instruction: 2, 4 or 8 doubles.
int count_divider_lanes(base::InstructionSet set);

/// Issues `rounds` times kRootsPerRound root instructions and twice as many divides, all
/// independent of each other.
/// Accuracy: ordinary values; processors with an early exit for round numbers do not
///           take it
void load_divider(base::InstructionSet set, int rounds);

constexpr int kRootsPerRound = 4;

}  // namespace flattail::bench
