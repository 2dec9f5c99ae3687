// A library of tested products, as `flattail evidence` writes it.
#pragma once

#include <optional>

#include "evidence/rolling/belief.h"
#include "scenario/values/table.h"

namespace flattail::scenario {

/// Reads one table with `products` [[evidence.rolling.product]]; nothing after problems.
std::optional<evidence::RollingBelief> read_belief(Table& table,
                                                   base::ProblemList& problems);

/// The width of a specimen's spread, and the like: a plain number in (0, .01].
std::optional<double> find_scale(Table& table, const char* key);

}  // namespace flattail::scenario
