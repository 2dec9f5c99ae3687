// rates.csv: a fitted log of flats, one row per figure.
#include <cmath>
#include <limits>

#include "flattail/flat_log.h"
#include "publish/tables/csv_text.h"
#include "publish/tables/write_files.h"

namespace flattail {

namespace {

using publish::csv_number;
using publish::CsvText;

// Limits that nothing bounds, and ratios of nothing, are empty.
std::string number_or_empty(double value) {
    return std::isfinite(value) ? csv_number(value) : std::string();
}

struct RateRow {
    std::string what, name, unit;
    std::int64_t count = 0;
    double distance_m = 0.0, even_m = 0.0;
    Belief belief;
    double scale = 1.0;
    Interval exact;
};

void add_row(CsvText& csv, const RateRow& row) {
    const auto number = [&](double value) { return number_or_empty(value * row.scale); };
    csv.add_row({row.what, row.name, row.unit, std::to_string(row.count),
                 number_or_empty(row.distance_m / 1000.0),
                 number_or_empty(row.even_m / 1000.0), number(row.belief.mean),
                 number(row.belief.sd), number(row.belief.low), number(row.belief.mid),
                 number(row.belief.high), number(row.exact.low), number(row.exact.high)});
}

constexpr double kNothing = std::numeric_limits<double>::quiet_NaN();

Belief make_certain(double value) { return {value, 0.0, value, value, value}; }

void add_group(CsvText& csv, const FlatLog& log, const FlatGroup& group) {
    constexpr double kPerThousandKm = 1e6;
    const std::string reference = log.groups.front().name;
    add_row(csv, {"flat rate in training", group.name, "per 1000 km", group.flats,
                  group.distance_m, group.even_m, group.rate_per_m, kPerThousandKm,
                  group.exact_per_m});
    add_row(csv, {"chance of a flat in the race",
                  group.name,
                  "",
                  group.flats,
                  group.distance_m,
                  group.even_m,
                  make_certain(group.flat_in_race),
                  1.0,
                  {kNothing, kNothing}});
    add_row(csv, {"chance of two flats in the race",
                  group.name,
                  "",
                  group.flats,
                  group.distance_m,
                  group.even_m,
                  make_certain(group.two_flats_in_race),
                  1.0,
                  {kNothing, kNothing}});
    if (group.name == reference) return;
    add_row(csv, {"flat rate / that of " + reference, group.name, "", group.flats,
                  group.distance_m, group.even_m, group.ratio, 1.0, group.exact.limits});
    add_row(csv, {"more to ride on each to tell twice as many",
                  group.name,
                  "km",
                  group.flats,
                  group.distance_m,
                  group.even_m,
                  make_certain(group.more_m),
                  1e-3,
                  {kNothing, kNothing}});
}

std::string write_rates_csv(const FlatLog& log) {
    CsvText csv({"what", "name", "unit", "count", "distance_km", "even_distance_km",
                 "mean", "sd", "p5", "p50", "p95", "exact_low_95", "exact_high_95"});
    for (const FlatGroup& group : log.groups) add_group(csv, log, group);
    const RaceRides& races = log.races;
    add_row(csv, {"flat rate racing / training", "all rides", "", races.flats,
                  races.distance_m, races.even_m, races.factor, 1.0, races.exact.limits});
    add_row(csv, {"repair time, front wheel, median",
                  "all rides",
                  "min",
                  log.repairs.count,
                  kNothing,
                  kNothing,
                  log.repairs.median_s,
                  1.0 / 60.0,
                  {kNothing, kNothing}});
    add_row(csv, {"repair time, spread",
                  "all rides",
                  "",
                  log.repairs.count,
                  kNothing,
                  kNothing,
                  make_certain(log.repairs.spread),
                  1.0,
                  {kNothing, kNothing}});
    return csv.text();
}

}  // namespace

void write_flat_tables(const FlatLog& log, const std::string& directory) {
    publish::write_files_together(directory, {{"rates.csv", write_rates_csv(log)},
                                              {"flats.toml", write_flat_library(log)}});
}

}  // namespace flattail
