// How fast an inner loses its gases: what is usual, and what a user has seen.
#pragma once

#include <optional>
#include <string>

#include "scenario/draft.h"

namespace flattail::scenario {

/// Nine losses in ten, psi, in 10 h from 75 psi at 20 C.
struct UsualLoss {
    double low, mid, high;
    Origin origin;
};

/// What is known of one kind of inner.
struct UsualLeak {
    physics::WallMaterial material;  // whose gas ratios and temperature laws it takes
    UsualLoss air;
    std::optional<UsualLoss> carbon_dioxide;  // nothing: by the material's ratio to air
};

struct LeakPart {
    Leak leak;  // its inputs are not in the model yet
    Input air_loss_pa;
    std::optional<Input> carbon_dioxide_loss_pa;
};

LeakPart make_usual_leak(const std::string& inner, const UsualLeak& usual);

/// Reads `leak` of an [[inner]]: { loses, in, from, at }, { wall, material } or { rate },
/// each with { co2 = { loses, in, from, at } } beside it.
LeakPart read_leak(Table& inner_table, const std::string& inner, const UsualLeak& usual);

}  // namespace flattail::scenario
