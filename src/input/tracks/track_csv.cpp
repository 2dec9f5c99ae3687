// A course as a table: distance and elevation, or lat, lon and elevation, or all four.
#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <numbers>

#include "input/tables/csv.h"
#include "input/text/capped_problems.h"
#include "input/tracks/track.h"
#include "input/tracks/track_files.h"

namespace flattail::input {

namespace {

// The first of two spellings that the table has, else the first.
const char* choose_name(const CsvTable& table, const char* usual, const char* other) {
    return !table.has_column(usual) && table.has_column(other) ? other : usual;
}

struct TrackColumns {
    CsvQuantities distance_m;
    CsvQuantities elevation_m;
    CsvQuantities lat_deg;
    CsvQuantities lon_deg;
};

// Degrees are the only unit in use for a position, so a plain number will do.
CsvQuantities read_degrees(const CsvTable& table, const char* name,
                           base::ProblemList& problems) {
    const auto column = table.find_column(name);
    if (column && table.columns[*column].unit.empty()) {
        return table.read_column(name, Dimension::kNumber, Need::kRequired, problems);
    }
    CsvQuantities values =
        table.read_column(name, Dimension::kAngle, Need::kRequired, problems);
    for (std::optional<double>& value : values) {
        if (value) *value *= 180 / std::numbers::pi;
    }
    return values;
}

// "lat" and "lon" are so near each other that one would be taken for a slip of the other.
void check_pair(const CsvTable& table, const char* there, const char* missing,
                base::ProblemList& problems) {
    if (table.has_column(missing) || !table.has_column(there)) return;
    problems.add_error({table.file, table.columns.front().place.line, 0},
                       fmt::format("has a column {} and no column {}", there, missing),
                       fmt::format("add a column {}", missing));
}

TrackColumns read_columns(const CsvTable& table, base::ProblemList& problems) {
    const char* lat = choose_name(table, "lat", "latitude");
    const char* lon = choose_name(table, "lon", "longitude");
    const char* elevation = choose_name(table, "elevation", "ele");
    check_pair(table, lat, lon, problems);
    check_pair(table, lon, lat, problems);
    const bool has_lat = table.has_column(lat);
    const bool has_lon = table.has_column(lon);
    TrackColumns columns;
    columns.elevation_m =
        table.read_column(elevation, Dimension::kLength, Need::kRequired, problems);
    if (has_lat && has_lon) {
        columns.lat_deg = read_degrees(table, lat, problems);
        columns.lon_deg = read_degrees(table, lon, problems);
    }
    columns.distance_m = table.read_column(
        "distance", Dimension::kLength,
        has_lat || has_lon ? Need::kOptional : Need::kRequired, problems);
    return columns;
}

const CsvCell& find_cell(const CsvTable& table, std::size_t row, const char* a,
                         const char* b) {
    const auto column = table.find_column(choose_name(table, a, b));
    return table.rows[row][column.value_or(0)];
}

void check_values(const CsvTable& table, const TrackColumns& columns,
                  base::ProblemList& problems) {
    CappedProblems capped(problems);
    const auto report = [&](std::size_t row, const char* a, const char* b,
                            std::string_view what, const char* hint) {
        const CsvCell& cell = find_cell(table, row, a, b);
        capped.add_error(table.place_of(cell),
                         fmt::format("{}: {} {}", a, cell.text, what), hint);
    };
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        if (columns.elevation_m[i] && !is_road_elevation(*columns.elevation_m[i])) {
            report(i, "elevation", "ele", "is no height of a road",
                   "check number and unit");
        }
        if (!columns.lat_deg.empty() && std::abs(*columns.lat_deg[i]) > 90) {
            report(i, "lat", "latitude", "lies outside -90 to 90 degrees",
                   "check that lat and lon are not swapped");
        }
        if (!columns.lon_deg.empty() && std::abs(*columns.lon_deg[i]) > 180) {
            report(i, "lon", "longitude", "lies outside -180 to 180 degrees",
                   "write the longitude east of Greenwich, west is negative");
        }
        if (columns.distance_m.empty()) continue;
        if (!columns.distance_m[i]) {
            report(i, "distance", "distance", "the cell is empty",
                   "write a value in every row of this column");
        } else if (i > 0 && columns.distance_m[i - 1] &&
                   *columns.distance_m[i] < *columns.distance_m[i - 1]) {
            report(i, "distance", "distance", "is less than in the row above",
                   "write distances from the start, rising from row to row");
        }
    }
    capped.finish("correct the table");
}

Track make_track(const CsvTable& table, const TrackColumns& columns) {
    Track track;
    track.file = table.file;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        TrackPoint point;
        if (!columns.lat_deg.empty()) {
            point.position = GroundPosition{*columns.lat_deg[i], *columns.lon_deg[i]};
        }
        point.elevation_m = columns.elevation_m[i];
        if (!columns.distance_m.empty()) point.distance_m = columns.distance_m[i];
        point.line = table.rows[i].front().line;
        point.column = table.rows[i].front().column;
        track.points.push_back(point);
    }
    return track;
}

std::optional<Track> read_track_table(const CsvTable& table,
                                      base::ProblemList& problems) {
    const int before = problems.error_count();
    const TrackColumns columns = read_columns(table, problems);
    if (problems.error_count() == before) check_values(table, columns, problems);
    if (problems.error_count() > before) return std::nullopt;
    if (table.rows.size() < 2) {
        problems.add_error({table.file, 0, 0}, "has 1 point (a course needs two or more)",
                           "write one row for each point along the course");
        return std::nullopt;
    }
    return make_track(table, columns);
}

}  // namespace

std::optional<Track> read_track_csv_text(std::string text, const std::string& name,
                                         base::ProblemList& problems) {
    const auto table = read_csv_text(std::move(text), name, problems);
    return table ? read_track_table(*table, problems) : std::nullopt;
}

std::optional<Track> read_track(const std::string& path, base::ProblemList& problems,
                                const Place& asked_at) {
    const std::string extension =
        to_lower(std::filesystem::path(path).extension().string());
    if (extension == ".csv" || extension == ".txt" || extension == ".tsv") {
        const auto table = read_csv(path, problems, asked_at);
        return table ? read_track_table(*table, problems) : std::nullopt;
    }
    if (extension == ".gpx" || extension == ".xml") {
        const auto file = read_text_file(path, kMostTrackBytes, problems, asked_at);
        return file ? read_gpx_file(*file, problems) : std::nullopt;
    }
    problems.add_error(asked_at.file.empty() ? Place{path, 0, 0} : asked_at,
                       fmt::format("{} is neither a .gpx nor a .csv file", path),
                       "export the course as GPX 1.1, or write a CSV with distance and "
                       "elevation");
    return std::nullopt;
}

}  // namespace flattail::input
