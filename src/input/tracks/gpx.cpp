#include <fmt/format.h>

#include <GeographicLib/Geodesic.hpp>
#include <algorithm>
#include <cmath>
#include <pugixml.hpp>

#include "input/text/capped_problems.h"
#include "input/text/number_text.h"
#include "input/text/text_file.h"
#include "input/tracks/track.h"
#include "input/tracks/track_files.h"
#include "input/units/clock.h"

namespace flattail::input {

namespace {

std::string_view local_name(const pugi::xml_node& node) {
    const std::string_view name = node.name();
    const std::size_t colon = name.find(':');
    return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

std::vector<pugi::xml_node> find_children(const pugi::xml_node& parent,
                                          std::string_view name) {
    std::vector<pugi::xml_node> found;
    for (const pugi::xml_node& child : parent.children()) {
        if (local_name(child) == name) found.push_back(child);
    }
    return found;
}

std::optional<std::string_view> read_child(const pugi::xml_node& parent,
                                           std::string_view name) {
    for (const pugi::xml_node& child : parent.children()) {
        if (local_name(child) == name) return trim(child.text().get());
    }
    return std::nullopt;
}

// One pass over a GPX file: points and what is wrong or doubtful with them.
class GpxReader {
  public:
    GpxReader(const TextFile& file, base::ProblemList& problems)
        : file_(file),
          places_(file.text, file.name),
          problems_(problems),
          bad_(problems) {
        track_.file = file.name;
    }

    std::optional<Track> read() {
        const int before = problems_.error_count();
        pugi::xml_document document;
        if (!load(document)) return std::nullopt;
        const std::vector<pugi::xml_node> pieces = find_pieces(document);
        for (const pugi::xml_node& piece : pieces) read_piece(piece);
        bad_.finish("correct every point, or export the track anew");
        if (problems_.error_count() > before) return std::nullopt;
        if (track_.points.size() < 2) {
            problems_.add_error(
                {file_.name, 0, 0},
                fmt::format("has {} track point{} (a course needs two or more)",
                            track_.points.size(), track_.points.size() == 1 ? "" : "s"),
                "export the whole track as GPX 1.1");
            return std::nullopt;
        }
        warn_about_times();
        warn_about_elevation();
        return std::move(track_);
    }

  private:
    Place place_of(const pugi::xml_node& node) const {
        // The offset points at the name, one byte behind the bracket.
        const std::ptrdiff_t offset = node.offset_debug();
        return places_.at(
            static_cast<std::size_t>(std::max<std::ptrdiff_t>(offset - 1, 0)));
    }

    bool load(pugi::xml_document& document) {
        const unsigned options = pugi::parse_default | pugi::parse_doctype;
        const pugi::xml_parse_result result = document.load_buffer(
            file_.text.data(), file_.text.size(), options, pugi::encoding_utf8);
        if (!result) {
            problems_.add_error(
                places_.at(static_cast<std::size_t>(result.offset)),
                fmt::format("is not whole XML ({})", result.description()),
                "export the track anew; the file may be cut off");
            return false;
        }
        for (const pugi::xml_node& child : document.children()) {
            if (child.type() != pugi::node_doctype) continue;
            problems_.add_error(
                {file_.name, places_.at(file_.text.find("<!DOCTYPE")).line, 0},
                "holds a DOCTYPE (GPX has none, and it can hide endless text)",
                "take the DOCTYPE out, or export the track anew");
            return false;
        }
        const pugi::xml_node root = document.document_element();
        if (local_name(root) == "gpx") return true;
        problems_.add_error(
            place_of(root),
            fmt::format("starts with <{}> (a GPX file starts with <gpx>)", root.name()),
            "export the track as GPX 1.1");
        return false;
    }

    // The track's segments, or the route when there is no track.
    std::vector<pugi::xml_node> find_pieces(const pugi::xml_document& document) {
        const pugi::xml_node root = document.document_element();
        const std::vector<pugi::xml_node> tracks = find_children(root, "trk");
        const std::vector<pugi::xml_node> routes = find_children(root, "rte");
        const bool use_routes = tracks.empty();
        const std::vector<pugi::xml_node>& lines = use_routes ? routes : tracks;
        if (lines.size() > 1) {
            problems_.add_error(
                place_of(lines[1]),
                fmt::format("is {0} {1} of {2} in this file (one is wanted)",
                            use_routes ? "route" : "track", 2, lines.size()),
                fmt::format("keep one <{}> in the file", use_routes ? "rte" : "trk"));
        }
        if (lines.empty()) return {};
        if (!use_routes && !routes.empty()) {
            problems_.add_warning(
                place_of(routes[0]), "a route stands beside the track",
                "the track is used, take the route out if that is right");
        }
        if (const auto name = read_child(lines[0], "name")) track_.name = *name;
        return use_routes ? routes : find_children(lines[0], "trkseg");
    }

    void read_piece(const pugi::xml_node& piece) {
        const std::string_view point_name = local_name(piece) == "rte"
                                                ? std::string_view("rtept")
                                                : std::string_view("trkpt");
        bool first = true;
        for (const pugi::xml_node& node : piece.children()) {
            if (local_name(node) != point_name) continue;
            const std::optional<TrackPoint> point = read_point(node);
            if (!point) continue;
            if (first && !track_.points.empty()) warn_about_gap(*point);
            first = false;
            track_.points.push_back(*point);
        }
    }

    std::optional<TrackPoint> read_point(const pugi::xml_node& node) {
        const Place place = place_of(node);
        const auto lat = read_degrees(node, "lat", 90, place);
        const auto lon = read_degrees(node, "lon", 180, place);
        TrackPoint point;
        point.line = place.line;
        point.column = place.column;
        point.elevation_m = read_elevation(node, place);
        point.time_s = read_time(node);
        if (!lat || !lon) return std::nullopt;
        point.position = GroundPosition{*lat, *lon};
        return point;
    }

    std::optional<double> read_degrees(const pugi::xml_node& node, const char* name,
                                       double limit, const Place& place) {
        const pugi::xml_attribute attribute = node.attribute(name);
        if (!attribute) {
            bad_.add_error(place, fmt::format("the point has no {}", name),
                           fmt::format("write {}=\"...\" in degrees", name));
            return std::nullopt;
        }
        const Parsed<double> degrees = parse_number(attribute.value());
        if (!degrees) {
            bad_.add_error(place, fmt::format("{}: {}", name, degrees.refusal().what),
                           degrees.refusal().hint);
            return std::nullopt;
        }
        if (std::abs(*degrees) <= limit) return *degrees;
        bad_.add_error(place,
                       fmt::format("{}: {} lies outside -{} to {} degrees", name,
                                   attribute.value(), limit, limit),
                       std::string_view(name) == "lat"
                           ? "check that lat and lon are not swapped"
                           : "write the longitude east of Greenwich, west is negative");
        return std::nullopt;
    }

    std::optional<double> read_elevation(const pugi::xml_node& node, const Place& place) {
        const auto text = read_child(node, "ele");
        if (!text || text->empty()) return std::nullopt;
        const Parsed<double> elevation_m = parse_number(*text);
        if (!elevation_m) {
            bad_.add_error(place, "ele: " + elevation_m.refusal().what,
                           elevation_m.refusal().hint);
            return std::nullopt;
        }
        if (is_road_elevation(*elevation_m)) return *elevation_m;
        bad_.add_error(place, fmt::format("ele: {} m is no height of a road", *text),
                       "write the elevation in metres above the sea");
        return std::nullopt;
    }

    std::optional<double> read_time(const pugi::xml_node& node) {
        const auto text = read_child(node, "time");
        if (!text || text->empty()) return std::nullopt;
        const Parsed<double> time_s = parse_utc_time(*text);
        if (time_s) return *time_s;
        if (++unreadable_times_ == 1) {
            first_unreadable_time_ = {place_of(node), "time: " + time_s.refusal().what,
                                      time_s.refusal().hint, Severity::kWarning};
        }
        return std::nullopt;
    }

    void warn_about_gap(const TrackPoint& next) {
        const GroundPosition& a = *track_.points.back().position;
        const GroundPosition& b = *next.position;
        double gap_m = 0;
        GeographicLib::Geodesic::WGS84().Inverse(a.lat_deg, a.lon_deg, b.lat_deg,
                                                 b.lon_deg, gap_m);
        if (gap_m < kGapWorthSaying_m) return;
        problems_.add_warning(
            track_.place_of(next),
            fmt::format("a gap of {:.0f} m lies before this segment", gap_m),
            "it is bridged by a straight line, fill it if that is wrong");
    }

    void warn_about_times() {
        if (unreadable_times_ > 0) {
            problems_.add_warning(first_unreadable_time_.place,
                                  fmt::format("{} ({} such)", first_unreadable_time_.what,
                                              unreadable_times_),
                                  first_unreadable_time_.hint);
        }
        int backward = 0;
        const TrackPoint* first = nullptr;
        for (std::size_t i = 1; i < track_.points.size(); ++i) {
            const TrackPoint& point = track_.points[i];
            const std::optional<double>& earlier = track_.points[i - 1].time_s;
            if (!earlier || !point.time_s || *point.time_s >= *earlier) continue;
            if (++backward == 1) first = &point;
        }
        if (backward == 0) return;
        problems_.add_warning(track_.place_of(*first),
                              fmt::format("time runs backwards at {} point{}, first here",
                                          backward, backward == 1 ? "" : "s"),
                              "check that the points stand in riding order");
    }

    void warn_about_elevation() {
        const auto lacks = [](const TrackPoint& point) { return !point.elevation_m; };
        const auto first =
            std::find_if(track_.points.begin(), track_.points.end(), lacks);
        if (first == track_.points.end()) return;
        const auto count =
            std::count_if(track_.points.begin(), track_.points.end(), lacks);
        problems_.add_warning(track_.place_of(*first),
                              fmt::format("{} of {} points have no elevation, first here",
                                          count, track_.points.size()),
                              "export the track with elevation");
    }

    // Below this a break is as large as a receiver's own error (common practice).
    static constexpr double kGapWorthSaying_m = 20;

    const TextFile& file_;
    TextPlaces places_;
    base::ProblemList& problems_;
    CappedProblems bad_;
    Track track_;
    int unreadable_times_ = 0;
    Problem first_unreadable_time_;
};

}  // namespace

bool is_road_elevation(double elevation_m) {
    // The lowest shore lies at -430 m and the highest peak at 8849 m; no road lies
    // beyond.
    constexpr double kLowest_m = -500;
    constexpr double kHighest_m = 9000;
    return elevation_m >= kLowest_m && elevation_m <= kHighest_m;
}

std::optional<Track> read_gpx_file(const TextFile& file, base::ProblemList& problems) {
    return GpxReader(file, problems).read();
}

std::optional<Track> read_gpx_text(std::string text, const std::string& name,
                                   base::ProblemList& problems) {
    const auto file = check_text(std::move(text), name, kMostTrackBytes, problems);
    return file ? read_gpx_file(*file, problems) : std::nullopt;
}

}  // namespace flattail::input
