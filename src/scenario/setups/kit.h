// What a rider carries against flats.
#pragma once

#include "scenario/draft.h"
#include "scenario/setups/parts.h"

namespace flattail::scenario {

/// A list of words such as ["2 tubes", "cartridge 16 g", "pump", "levers"]; null takes the
/// default, one tube and one cartridge. Items that change no result are noted in
/// `uncounted`.
Kit read_kit(Draft& draft, const input::Node* node, const Parts& parts,
             std::vector<std::string>& uncounted, std::string& spare);

}  // namespace flattail::scenario
