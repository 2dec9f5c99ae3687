// What a rider's log says of flats: rates by inner or setup, repairs, and how sure.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/problem.h"
#include "flattail/publish.h"

namespace flattail {

/// What a log is read with. Distances in m, times in s.
struct FlatLogOptions {
    /// Two days in three have a flat rate within this factor of the middle: flats come in
    /// clumps. 1 never clumped, at most 5. Assumption. Larger: two flats on one day say
    /// less, and all ranges widen.
    double clumping = 1.8;
    /// The race to say the chance of a flat for.
    double race_m = 90e3;
    /// How long a repair takes before the log is read; a third either way (common
    /// practice, 9 in 10).
    double repair_s = 480.0;
};

/// A value that is not known exactly: nine times in ten between low and high.
struct Belief {
    double mean = 0.0;
    double sd = 0.0;
    double low = 0.0;
    double mid = 0.0;
    double high = 0.0;
};

/// Two counts over two distances; limits of the ratio are exact (95 %).
struct ExactRatio {
    double ratio = 0.0;  // infinite when only the second count is zero, NaN for 0 / 0
    Interval limits;
    double p_value = 1.0;  // that the two rates are one
};

/// The rides on one inner (or setup).
struct FlatGroup {
    std::string name;
    std::int64_t rides = 0;
    double distance_m = 0.0;  // training
    std::int64_t flats = 0;   // in training
    // The distance that would bring as many flats when dry, on an ordinary road and the
    // race tyre: what the rate is counted over.
    double even_m = 0.0;
    Interval exact_per_m;  // 95 %, from the count alone
    Belief rate_per_m;     // in training, with everything else that is known
    double flat_in_race = 0.0;
    double two_flats_in_race = 0.0;
    Belief ratio;  // rate / that of the reference
    ExactRatio exact;
    // More to ride on each of the two until a rate twice as high would be told from the
    // same, four times in five; infinite beyond a million km.
    double more_m = 0.0;
};

/// Race rides, kept apart from training.
struct RaceRides {
    std::int64_t rides = 0;
    double distance_m = 0.0;
    double even_m = 0.0;
    std::int64_t flats = 0;
    ExactRatio exact;  // racing / training
    Belief factor;
};

struct LoggedRepairs {
    std::int64_t count = 0;
    Belief median_s;  // front wheel
    double spread = 1.5;
};

struct NamedDistance {
    std::string name;
    double distance_m = 0.0;
};

/// A log of flats, fitted. The first group is the reference: what a scenario takes as its
/// rate in training.
struct FlatLog {
    std::string file;
    FlatLogOptions options;
    bool by_inner = false;  // groups are inners; else setups, or all rides together
    std::string first_date, last_date;
    std::int64_t rides = 0;
    std::int64_t flats = 0;
    std::int64_t days_with_flats = 0;
    double distance_m = 0.0;
    std::vector<FlatGroup> groups;
    // How beliefs go together, correlations row by row: the logarithms of the reference's
    // rate, then of each other group's ratio.
    std::vector<double> together;
    RaceRides races;
    LoggedRepairs repairs;
    std::vector<NamedDistance> tyres, surfaces;
    double wet_m = 0.0;
    std::vector<Problem> warnings;
};

/// The length in m that a text such as "90 km" states; nothing for any other text.
std::optional<double> read_length(const std::string& text);

/// Reads a CSV of rides and learns from it. A row is one ride, or several when it has a
/// column `rides`; rides of one date share that day's luck.
/// Errors: InvalidInput with every problem of the file, or an option out of range
/// Accuracy: chances and percentiles .1 % against simulation
/// Source:  METHOD 6.13 to 6.20
FlatLog read_flat_log(const std::string& path, const FlatLogOptions& options = {});

/// The same for a text in memory; `name` stands in places.
FlatLog read_flat_log_text(std::string text, const std::string& name,
                           const FlatLogOptions& options = {});

/// A library file (TOML) for the `include` of scenarios: the training rate, cuts by
/// inner, race factor and repair times with their doubt.
/// Accuracy: the 5, 50 and 95 % points are kept, means within 2 %
std::string write_flat_library(const FlatLog& log);

/// The log on one terminal page.
std::string write_flat_page(const FlatLog& log, const PageOptions& options = {});

/// Writes rates.csv and flats.toml (the library).
/// Errors: OutputFailed; the files that were there before stay whole
void write_flat_tables(const FlatLog& log, const std::string& directory);

}  // namespace flattail
