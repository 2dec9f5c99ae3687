// The tables of the page: how each setup does, what a flat costs, one against another.
#pragma once

#include <string>
#include <vector>

#include "flattail/publish.h"
#include "publish/pages/text_table.h"

namespace flattail::publish {

/// Typical day, 9 days in 10, and chances out of 100 race days, one line per setup.
std::vector<std::string> lay_setups(const Findings& findings, const PageOptions& options);

/// The chance of each goal; nothing unless there are several.
std::vector<std::string> lay_goals(const Findings& findings, const PageOptions& options);

/// What a flat costs and why days end without a finish; nothing when no day had a flat or
/// missed its finish.
std::vector<std::string> lay_flat_costs(const Findings& findings,
                                        const PageOptions& options);

/// Every setup against the one on the bike; nothing when there is only one.
std::vector<std::string> lay_pairs(const Findings& findings, const PageOptions& options);

/// A line of one setup with its mark, still without cells.
TextRow begin_row(const Findings& findings, std::size_t setup);

/// The setup to ride, or -1: the choice, but what is on the bike when they are a toss-up.
int find_advised(const Findings& findings);

/// Days that chances are counted out of: the equally weighted days worth as much.
double count_days(const Findings& findings);

}  // namespace flattail::publish
