// Parts of the road that differ from the rest, and the words for surface and shelter.
#pragma once

#include <optional>
#include <string>

#include "course/request.h"
#include "scenario/draft.h"

namespace flattail::scenario {

/// Rider wind / wind at 10 m: "open", "hedged", "wood" or a number.
std::optional<double> read_shelter(const input::Node& node, base::ProblemList& problems);

/// "smooth", "ordinary", "coarse" or "cobbles"; `what` names it in a problem.
std::optional<course::Surface> read_surface(const input::Node& node,
                                            const std::string& what,
                                            base::ProblemList& problems);

/// `road.stretches`, a CSV file, and the tables of [[road.stretch]].
void read_stretches(Draft& draft, Table& road, course::CourseRequest& request);

}  // namespace flattail::scenario
