// Values of a document's nodes as the types that a reader wants; problems name the key.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "input/toml/document.h"
#include "input/units/clock.h"
#include "input/units/quantity.h"

namespace flattail::input {

/// Each returns nothing after adding one problem at the node's place.
std::optional<double> read_quantity(const Node& node, Dimension dimension,
                                    base::ProblemList& problems);
std::optional<ClockTime> read_clock(const Node& node, base::ProblemList& problems);
std::optional<std::string> read_text(const Node& node, base::ProblemList& problems);
std::optional<std::int64_t> read_whole_number(const Node& node,
                                              base::ProblemList& problems);
std::optional<bool> read_boolean(const Node& node, base::ProblemList& problems);

}  // namespace flattail::input
