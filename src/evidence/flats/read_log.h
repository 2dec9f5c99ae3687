// The rows of a rider's log.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "base/problem_list.h"
#include "evidence/flats/log_words.h"
#include "input/tables/csv.h"

namespace flattail::evidence {

/// One row: a ride, or several in sum.
struct LogRide {
    Place place;
    std::chrono::year_month_day day{};
    double distance_m = 0.0;
    int flats = 0;
    int rides = 1;
    std::string setup, inner;  // inner by the name that scenarios have
    std::string tyre;          // as written; empty when not stated
    physics::Surface surface = physics::Surface::kOrdinary;
    bool wet = false;
    bool race = false;
    std::vector<double> repairs_s;
};

struct LogRides {
    std::vector<LogRide> rides;
    bool has_inner = false;
    bool has_setup = false;
    bool has_surface = false;
};

/// Columns date, distance, flats; inner, setup, tyre, surface, wet, kind, rides, repair
/// and note may be missing. `repair` holds one time per flat that was repaired: "7", or
/// "7 + 12".
/// Errors:  problems for every cell that makes no sense; what is doubtful warns
LogRides read_log_rows(const input::CsvTable& table, base::ProblemList& problems);

}  // namespace flattail::evidence
