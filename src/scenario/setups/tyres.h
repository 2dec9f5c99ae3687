// What is known of each kind of tyre, against the race tyre.
#pragma once

#include <optional>
#include <string>

#include "scenario/setups/parts.h"
#include "scenario/tested/tested_products.h"

namespace flattail::scenario {

/// The part that "race 28 mm", "thin time-trial 25 mm" or "tough 32 mm" stands for.
std::optional<TyrePart> make_known_tyre(const std::string& words);

/// One entry of [[tyre]]: a kind everyone knows, with what the user says differs.
std::optional<TyrePart> read_tyre(const input::Node& node, const TestedProducts& tested,
                                  base::ProblemList& problems);

/// The factor on cuts by wear: half worn or worn; new has none.
enum class Wear { kNew, kHalf, kWorn };
std::optional<Spec> make_wear_spec(Wear wear);

}  // namespace flattail::scenario
