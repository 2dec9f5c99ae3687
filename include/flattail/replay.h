// One ride of a study told along the course.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "flattail/publish.h"
#include "flattail/scenario.h"
#include "flattail/study.h"

namespace flattail {

/// Which ride: the race day as days.csv numbers it, the setup by its name, and the study
/// it belongs to (its seed, its number of days and how they are drawn).
struct ReplayRequest {
    std::int64_t race = 0;
    std::string setup;
    StudyOptions study;
};

/// The rider at one place. Wind at the rider; head wind is its part from ahead, negative
/// from behind.
struct ReplayPoint {
    double place_m = 0.0;
    double time_s = 0.0;
    double speed_m_s = 0.0;
    double power_w = 0.0;
    double wind_m_s = 0.0;
    double head_wind_m_s = 0.0;
    double front_pa = 0.0;  // gauge
    double rear_pa = 0.0;
};

struct ReplayEvent {
    double place_m = 0.0;
    double time_s = 0.0;
    std::string words;  // "rear flat: a cut, at speed"
};

struct Replay {
    std::string race_name;
    std::string rider_name;
    bool invented = false;
    std::int64_t race = 0;
    std::string setup;
    std::uint64_t seed = 1;
    double start_clock_s = 0.0;  // of this day
    double finish_s = 0.0;       // infinite without a finish
    double lost_s = 0.0;         // to flats
    int flats = 0;
    std::string ending;               // as in days.csv
    std::vector<ReplayPoint> points;  // by place; ends where the ride ended
    std::vector<ReplayEvent> events;  // by time
};

/// The ride of the study again, written down: its finish time is that of its row in
/// days.csv, to the bit.
/// Errors:  InvalidInput for an unknown setup or a race that no study has
Replay replay_race(const Scenario& scenario, const ReplayRequest& request);

/// The ride as a page for the terminal: a line every few kilometres, and what happened.
std::string write_replay_page(const Replay& replay, const PageOptions& options = {});

/// Writes replay.csv: a row at the end of every piece of road, with what happened there.
/// Errors:  as write_tables
void write_replay_table(const Replay& replay, const std::string& directory);

}  // namespace flattail
