// What a rider carries against flats.
#pragma once

#include <string>
#include <vector>

#include "scenario/draft.h"
#include "scenario/setups/parts.h"

namespace flattail::scenario {

/// A kit as it was listed.
struct ListedKit {
    Kit kit;
    std::string spare;                   // the inner that its tubes are; empty without
    std::vector<std::string> uncounted;  // items that change no result
};

/// A list of words such as ["2 tubes", "cartridge 16 g", "pump"]; null takes the default,
/// one tube and one cartridge.
ListedKit read_kit(const input::Node* node, const Parts& parts,
                   base::ProblemList& problems);

}  // namespace flattail::scenario
