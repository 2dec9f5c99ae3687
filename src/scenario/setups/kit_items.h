// The words a kit may hold, and what each thing weighs.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scenario/carried_kit.h"
#include "scenario/model.h"

namespace flattail::scenario {

/// The item that words without a count stand for, tubes apart; nothing when nobody knows
/// it. Cartridges come without their gas: "cartridge" alone, or before its grams.
std::optional<KitItem> find_kit_item(const std::string& words);

/// What a spare tube of a material weighs. Assumption, tubes for 25 to 28 mm tyres.
double find_tube_mass_kg(InnerMaterial material);

/// A filled cartridge for its gas: steel and gas. Assumption.
double find_cartridge_mass_kg(double gas_kg);

/// Every word, for messages.
std::vector<std::string> known_kit_words();

}  // namespace flattail::scenario
