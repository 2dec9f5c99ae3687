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
    std::string spare;  // the inner that its tubes are; empty without
};

/// A list of words such as ["2 tubes", "cartridge 16 g", "mini pump"], or of tables such
/// as { item = "tube", valve = "80 mm", weighs = "105 g" }; null takes the default, one
/// tube, one cartridge and levers.
ListedKit read_kit(const input::Node* node, const Parts& parts,
                   base::ProblemList& problems);

/// What a minimum kit asks for and a kit lacks, in words; empty when it has all.
std::vector<std::string> list_missing(const Kit& least, const Kit& kit);

/// Whether the kit's tubes suit a wheel's rim, and whether its inflators reach the valve.
void fit_kit(const Kit& kit, Wheel& wheel);

}  // namespace flattail::scenario
