// Rules of safety and sense that a setup may break.
#pragma once

#include <optional>
#include <vector>

#include "scenario/model.h"

namespace flattail::scenario {

enum class RimKind { kHooked, kHookless };
enum class Brake { kUnknown, kRim, kDisc };

/// The rims of a setup as far as they are stated.
struct Rim {
    RimKind kind = RimKind::kHooked;
    Brake brake = Brake::kUnknown;
    std::optional<double> most_pa;
    std::optional<double> inner_width_m;
};

/// Fewest tubes and inflations a setup must carry to be recommended.
struct LeastKit {
    int tubes = 0;
    int inflations = 0;
};

/// Adds the cautions of a setup and vetoes it where a rule forbids to ride it. Pressures
/// are checked at the hottest hour of the forecast.
/// Source:  common practice after ETRTO and makers' markings; see each rule
void add_cautions(const Model& model, const Rim& rim, Setup& setup);

/// Vetoes a setup that carries less than the least kit.
void check_least_kit(const LeastKit& least, Setup& setup);

}  // namespace flattail::scenario
