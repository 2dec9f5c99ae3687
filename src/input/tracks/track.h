// A recorded or planned line over the ground, as a GPX or CSV file gives it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/problem_list.h"

namespace flattail::input {

struct GroundPosition {
    double lat_deg = 0;  ///< WGS 84, [-90, 90]
    double lon_deg = 0;  ///< WGS 84, [-180, 180]
};

struct TrackPoint {
    std::optional<GroundPosition> position;
    std::optional<double> elevation_m;
    std::optional<double> distance_m;  ///< from the first point, never falling; CSV only
    std::optional<double> time_s;      ///< since 1970-01-01T00:00:00Z; GPX only
    int line = 0;
    int column = 0;
};

/// At least two points. Either all points have a position, or all have a distance and an
/// elevation, or both.
struct Track {
    std::string file;
    std::string name;  ///< the track's own name, may be empty
    std::vector<TrackPoint> points;

    bool has_positions() const {
        return !points.empty() && points.front().position.has_value();
    }
    bool has_distances() const {
        return !points.empty() && points.front().distance_m.has_value();
    }
    Place place_of(const TrackPoint& point) const {
        return {file, point.line, point.column};
    }
};

/// A track from a `.gpx` or `.csv` file. Doubtful matters (gaps between segments, times
/// that run backwards, points without elevation) are warnings; nothing is returned after
/// an error.
std::optional<Track> read_track(const std::string& path, base::ProblemList& problems,
                                const Place& asked_at = {});

/// Source: GPX 1.1 schema (2004); names are matched without their prefix.
std::optional<Track> read_gpx_text(std::string text, const std::string& name,
                                   base::ProblemList& problems);

/// Columns `distance` and `elevation`, or `lat`, `lon` and `elevation`, or all four.
std::optional<Track> read_track_csv_text(std::string text, const std::string& name,
                                         base::ProblemList& problems);

}  // namespace flattail::input
