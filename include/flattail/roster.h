// A squad: one scenario and one brief for each row of a table of athletes.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "flattail/problem.h"
#include "flattail/scenario.h"
#include "flattail/study.h"

namespace flattail {

/// One athlete: whose scenario, with which settings, into which folder.
struct RosterRow {
    std::string athlete;
    std::string folder;  // safe on every file system, none twice
    ScenarioSource source;
    Place place;  // the row in the user's file
};

/// Reads a CSV of athletes. Columns are keys of a scenario ("rider.mass", "race.goal";
/// `name mass power position repair goal cutoff bike_start` may stand alone), with their
/// unit in the header or in the cell; `scenario` names the file of a row, beside the
/// roster; `setups` those the athlete owns, "Butyl; Latex". An empty cell leaves what the
/// scenario says. Rows without a scenario take `scenario_path`; `settings` hold for all.
/// Errors: InvalidInput when the table cannot be read at all
std::vector<RosterRow> read_roster(const std::string& path,
                                   const std::string& scenario_path,
                                   const std::vector<std::string>& settings);

struct RosterOptions {
    /// One thread rides each athlete; `threads` athletes are ridden at once.
    StudyOptions study;
    /// Called with the share done and a count of athletes, from one thread at a time.
    std::function<void(double share, std::size_t done)> progress;
};

struct RosterOutcome {
    std::size_t done = 0;
    std::vector<Problem> problems;       // of rows whose scenario is wrong
    std::vector<std::string> not_drawn;  // missing programs, each told once
    bool stopped_early = false;
};

/// Rides every athlete and writes FOLDER/brief.html, .pdf, .txt and tables for each, and
/// index.html and roster.csv for all. A row that cannot be ridden is reported and the
/// others are done.
/// Errors:   OutputFailed when a file cannot be written
/// Accuracy: the same bytes for any number of threads
RosterOutcome write_roster(const std::vector<RosterRow>& rows,
                           const RosterOptions& options, const std::string& directory);

}  // namespace flattail
