// All athletes of a roster in one table and one page.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/roster.h"

namespace flattail::publish {

/// What a squad's table says of one athlete; nothing but a name when the row failed.
struct SquadLine {
    std::string athlete, folder, race, start, scenario_file;
    std::optional<SetupFindings> advised;  // nothing when no setup is advised
    std::optional<PairFindings> pair;      // against the setup on the bike
    std::string certainty;
    std::vector<double> goals_s;
    double days = 1.0;
    bool is_written = false;
    std::vector<std::string> problems;
};

SquadLine summarise_athlete(const RosterRow& row, const Findings& findings);

std::string write_roster_csv(const std::vector<SquadLine>& lines);
std::string write_index_html(const std::vector<SquadLine>& lines);

}  // namespace flattail::publish
