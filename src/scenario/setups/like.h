// Setups that begin as a copy of another.
#pragma once

#include <vector>

#include "base/problem_list.h"
#include "input/toml/document.h"

namespace flattail::scenario {

/// The setups with every `like` replaced by what it stands for. What a setup states
/// itself wins; tables (front, rear, rim, pressure) are joined key by key. A part stated
/// for both wheels also replaces what the copied setup says of one wheel. A wheel with
/// another tyre or inner does not take over how far that was ridden, nor one with another
/// tyre how worn it is.
/// Errors:  adds a problem for an unknown name and for a circle; such a setup keeps its
///          `like`
std::vector<input::Node> resolve_likes(const input::Node& setups,
                                       base::ProblemList& problems);

/// Puts what `own` lacks from `copied` into it, tables key by key.
void fill_from(input::Node& own, const input::Node& copied);

}  // namespace flattail::scenario
