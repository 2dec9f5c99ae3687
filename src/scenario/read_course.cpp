// The course: a recorded track, a profile or three numbers, with stretches on it.
#include <fmt/format.h>

#include <cmath>
#include <filesystem>

#include "input/csv.h"
#include "input/node_values.h"
#include "input/track.h"
#include "scenario/defaults.h"
#include "scenario/read_tables.h"

namespace flattail::scenario {

namespace {

using course::CourseRequest;
using course::Stretch;
using input::Node;

// A lap must end near where it began (assumption: start and finish lines may differ).
constexpr double kLapGap_m = 250.0;
constexpr int kMostLaps = 500;

const Words& surface_words() {
    static const Words kWords(course::kSurfaceNames.begin(), course::kSurfaceNames.end());
    return kWords;
}

int read_laps(Table& table) {
    const Node* node = table.find("laps");
    if (!node) return 1;
    const auto laps = input::read_whole_number(*node, table.problems());
    if (!laps) return 1;
    if (*laps < 1 || *laps > kMostLaps) {
        table.add_error(*node,
                        fmt::format("laps is {}, outside 1 to {}", *laps, kMostLaps),
                        "write how often the course is ridden, like laps = 2");
        return 1;
    }
    return static_cast<int>(*laps);
}

course::RawPoint to_raw(const input::TrackPoint& point) {
    course::RawPoint raw;
    raw.latitude_deg = point.position->lat_deg;
    raw.longitude_deg = point.position->lon_deg;
    if (point.elevation_m) raw.elevation_m = *point.elevation_m;
    if (point.time_s) raw.time_s = *point.time_s;
    raw.line = point.line;
    return raw;
}

// Rough, and enough to tell a lap from a road between two towns.
double measure_gap_m(const course::RawPoint& a, const course::RawPoint& b) {
    constexpr double kMetresPerDegree = 111.2e3;
    constexpr double kRadPerDegree = 3.14159265358979323846 / 180.0;
    const double north = (a.latitude_deg - b.latitude_deg) * kMetresPerDegree;
    const double east = (a.longitude_deg - b.longitude_deg) * kMetresPerDegree *
                        std::cos(a.latitude_deg * kRadPerDegree);
    return std::hypot(north, east);
}

// Laps repeat the places but not the clock, which says nothing about a planned ride.
course::RawTrack repeat_track(const input::Track& track, int laps) {
    course::RawTrack raw;
    for (int lap = 0; lap < laps; ++lap) {
        for (const input::TrackPoint& point : track.points) {
            raw.points.push_back(to_raw(point));
            if (laps > 1) raw.points.back().time_s = course::kUnknown;
        }
    }
    return raw;
}

course::RawProfile repeat_profile(const input::Track& track, int laps) {
    course::RawProfile profile;
    const double lap_m = *track.points.back().distance_m;
    for (int lap = 0; lap < laps; ++lap) {
        for (std::size_t i = lap == 0 ? 0 : 1; i < track.points.size(); ++i) {
            profile.distance_m.push_back(lap * lap_m + *track.points[i].distance_m);
            profile.elevation_m.push_back(track.points[i].elevation_m.value_or(0.0));
        }
    }
    return profile;
}

bool closes(const input::Track& track) {
    if (track.has_positions()) {
        return measure_gap_m(to_raw(track.points.front()), to_raw(track.points.back())) <=
               kLapGap_m;
    }
    constexpr double kStep_m = 20.0;
    return std::abs(track.points.front().elevation_m.value_or(0.0) -
                    track.points.back().elevation_m.value_or(0.0)) <= kStep_m;
}

void read_file_course(Draft& draft, Table& race, const Node& node,
                      CourseRequest& request) {
    const std::string path = input::resolve_path(node);
    const int laps = read_laps(race);
    const auto track = input::read_track(path, draft.problems);
    if (!track) return;
    request.source_file = path;
    if (draft.model.race.name.empty()) draft.model.race.name = track->name;
    if (laps > 1 && !closes(*track)) {
        draft.problems.add_error(race.find("laps")->place,
                                 "race.laps repeats a course whose end is far from its "
                                 "start",
                                 "leave laps out, or give a track of one closed lap");
    }
    if (track->has_positions()) {
        request.source = repeat_track(*track, laps);
    } else {
        request.source = repeat_profile(*track, laps);
    }
}

void read_sketch(Draft& draft, Table& race, CourseRequest& request) {
    Table table = race.find_table("course");
    static const Spec kDistance{"race.course.distance",
                                "distance",
                                input::Dimension::kLength,
                                kKilometre,
                                Scale::kPositive,
                                Layer::kKnowledge,
                                0.2,
                                2000,
                                "write a length like \"90 km\""};
    static const Spec kClimb{"race.course.climb",
                             "climb",
                             input::Dimension::kLength,
                             kMetre,
                             Scale::kPositive,
                             Layer::kKnowledge,
                             0,
                             40000,
                             "write a height like \"900 m\""};
    course::RawSketch sketch;
    if (!table.find("distance")) {
        draft.problems.add_error(table.place(), "race.course.distance is missing",
                                 kDistance.advice);
    }
    sketch.distance_m = table.find_value(kDistance).value_or(0.0);
    if (!table.find("climb")) {
        note_choice(draft, "race.course.climb", "climb", "0 m", Origin::kAssumption,
                    "assumption");
    }
    sketch.climb_m = table.find_value(kClimb).value_or(0.0);
    sketch.laps = read_laps(table);
    table.reject_unknown_keys();
    if (race.find("laps")) {
        race.add_error(*race.find("laps"),
                       "race.laps repeats a recorded track, not a sketch",
                       "write laps inside course = { distance, climb, laps }");
    }
    request.source = sketch;
}

void read_source(Draft& draft, Table& race, CourseRequest& request) {
    const Node* node = race.find("course");
    if (!node) {
        draft.problems.add_error(
            race.place(), "race.course is missing",
            "write course = \"course.gpx\" or { distance = \"90 km\", "
            "climb = \"900 m\" }");
        race.find("laps");
        return;
    }
    if (node->is(input::NodeKind::kTable)) return read_sketch(draft, race, request);
    if (node->is(input::NodeKind::kString)) {
        return read_file_course(draft, race, *node, request);
    }
    race.find("laps");
    race.add_error(*node, "race.course is neither a file nor a table",
                   "write course = \"course.gpx\" or { distance = \"90 km\" }");
}

// "open", "hedged", "wood" or a number.
std::optional<double> read_shelter(const Node& node, base::ProblemList& problems) {
    struct Surrounding {
        const char* word;
        double ratio;
    };
    // Rider wind / wind at 10 m. Assumption, +-.15.
    static constexpr Surrounding kSurroundings[] = {
        {"open", course::kOpenShelter}, {"hedged", 0.45}, {"wood", 0.3}};
    if (node.is(input::NodeKind::kString)) {
        for (const Surrounding& known : kSurroundings) {
            if (fold_case(node.text) == known.word) return known.ratio;
        }
        if (!input::parse_quantity(node.text, input::Dimension::kNumber)) {
            problems.add_error(node.place,
                               fmt::format("road.shelter cannot be \"{}\"", node.text),
                               find_spec("road.shelter").advice);
            return std::nullopt;
        }
    }
    return read_value(node, find_spec("road.shelter"), problems);
}

std::optional<course::Surface> read_surface(const Node& node, const std::string& what,
                                            base::ProblemList& problems) {
    const auto word = match_word(node, what, surface_words(), problems);
    if (!word) return std::nullopt;
    return static_cast<course::Surface>(*word);
}

Spec name_place(const char* name) {
    return {name,
            name,
            input::Dimension::kLength,
            kKilometre,
            Scale::kPositive,
            Layer::kKnowledge,
            0,
            2000,
            "write a place along the course like \"12.4 km\""};
}

std::optional<Stretch> read_stretch(Draft& draft, const Node& node) {
    Table table(&node, "road.stretch", draft.problems);
    Stretch stretch;
    const auto from = table.find_value(name_place("road.stretch.from"));
    const auto to = table.find_value(name_place("road.stretch.to"));
    for (const char* key : {"from", "to"}) {
        if (table.find(key)) continue;
        draft.problems.add_error(table.place(),
                                 fmt::format("road.stretch.{} is missing", key),
                                 "write from = \"12.4 km\" and to = \"13 km\"");
    }
    stretch.name = table.find_text("name").value_or("");
    if (const Node* entry = table.find("surface")) {
        stretch.surface = read_surface(*entry, "road.stretch.surface", draft.problems);
    }
    if (const Node* entry = table.find("shelter")) {
        stretch.shelter = read_shelter(*entry, draft.problems);
    }
    stretch.debris = table.find_value(find_spec("road.debris"));
    stretch.speed_cap_m_s = table.find_value(find_spec("road.speed_cap"));
    table.reject_unknown_keys();
    if (!from || !to) return std::nullopt;
    stretch.from_m = *from;
    stretch.to_m = *to;
    stretch.line = node.place.line;
    return stretch;
}

// A cell as a node, so that both kinds of stretches are read by the same words.
Node make_cell_node(const input::CsvTable& table, const input::CsvCell& cell) {
    Node node;
    node.kind = input::NodeKind::kString;
    node.text = cell.text;
    node.place = node.key_place = table.place_of(cell);
    return node;
}

const input::CsvCell* find_cell(const input::CsvTable& table, std::size_t row,
                                std::string_view name) {
    const auto column = table.find_column(name);
    if (!column || table.rows[row][*column].text.empty()) return nullptr;
    return &table.rows[row][*column];
}

void read_stretch_file(Draft& draft, const Node& node, CourseRequest& request) {
    using input::Need;
    const std::string path = input::resolve_path(node);
    const auto table = input::read_csv(path, draft.problems);
    if (!table) return;
    request.stretch_file = path;
    table->check_columns(
        {"from", "to", "name", "surface", "shelter", "debris", "speed_cap"},
        draft.problems);
    const auto from = table->read_column("from", input::Dimension::kLength,
                                         Need::kRequired, draft.problems);
    const auto to = table->read_column("to", input::Dimension::kLength, Need::kRequired,
                                       draft.problems);
    const auto caps = table->read_column("speed_cap", input::Dimension::kSpeed,
                                         Need::kOptional, draft.problems);
    const auto names = table->read_text_column("name", Need::kOptional, draft.problems);
    for (std::size_t i = 0; i < table->rows.size(); ++i) {
        if (i >= from.size() || i >= to.size() || !from[i] || !to[i]) continue;
        Stretch stretch;
        stretch.from_m = *from[i];
        stretch.to_m = *to[i];
        stretch.line = table->rows[i].front().line;
        if (i < names.size()) stretch.name = names[i];
        if (i < caps.size()) stretch.speed_cap_m_s = caps[i];
        if (const auto* cell = find_cell(*table, i, "surface")) {
            stretch.surface =
                read_surface(make_cell_node(*table, *cell), "surface", draft.problems);
        }
        if (const auto* cell = find_cell(*table, i, "shelter")) {
            stretch.shelter = read_shelter(make_cell_node(*table, *cell), draft.problems);
        }
        if (const auto* cell = find_cell(*table, i, "debris")) {
            stretch.debris = read_value(make_cell_node(*table, *cell),
                                        find_spec("road.debris"), draft.problems);
        }
        request.stretches.push_back(std::move(stretch));
    }
}

void read_stretches(Draft& draft, Table& road, CourseRequest& request) {
    if (const Node* node = road.find("stretches")) {
        if (node->is(input::NodeKind::kString)) {
            read_stretch_file(draft, *node, request);
        } else {
            road.add_error(*node, "road.stretches is no file",
                           "write stretches = \"stretches.csv\", or [[road.stretch]]");
        }
    }
    const Node* list = road.find("stretch");
    if (!list) return;
    if (!list->is_table_list()) {
        road.add_error(*list, "road.stretch is no list of tables",
                       "write [[road.stretch]]");
        return;
    }
    if (request.stretch_file.empty()) request.stretch_file = list->place.file;
    for (const Node& item : list->items) {
        if (auto stretch = read_stretch(draft, item)) {
            request.stretches.push_back(std::move(*stretch));
        }
    }
}

void read_road_as_usual(Draft& draft, Table& road, CourseRequest& request) {
    if (const Node* node = road.find("surface")) {
        const auto surface = read_surface(*node, "road.surface", draft.problems);
        request.road.surface = surface.value_or(request.road.surface);
    } else {
        note_choice(draft, "road.surface", "road surface", "ordinary",
                    Origin::kAssumption, "assumption");
    }
    if (const Node* node = road.find("shelter")) {
        const auto shelter = read_shelter(*node, draft.problems);
        request.road.shelter = shelter.value_or(request.road.shelter);
    } else {
        note_default(draft, find_spec("road.shelter"), request.road.shelter);
    }
    request.limits.lateral_m_s2 =
        take_setting(draft, road, find_spec("road.lateral_limit"));
    request.limits.brake_m_s2 = take_setting(draft, road, find_spec("road.braking"));
    request.limits.descent_cap_m_s =
        take_setting(draft, road, find_spec("road.descent_cap"));
}

void read_errors(Draft& draft, Table& race, CourseRequest& request) {
    request.official_distance_m = race.find_value(find_spec("race.official_distance"));
    const auto position = race.find_value(find_spec("race.position_error"));
    const auto height = race.find_value(find_spec("race.height_error"));
    request.position_error_m = position.value_or(course::kPositionError_m);
    request.height_error_m = height.value_or(course::kHeightError_m);
    if (std::holds_alternative<course::RawSketch>(request.source)) return;
    if (!position)
        note_default(draft, find_spec("race.position_error"), request.position_error_m);
    if (!height)
        note_default(draft, find_spec("race.height_error"), request.height_error_m);
}

void build(Draft& draft, const CourseRequest& request) {
    try {
        auto built = std::make_shared<course::Course>(course::build_course(request));
        for (const Problem& warning : built->warnings) {
            draft.model.warnings.push_back(warning);
        }
        draft.model.course = std::move(built);
    } catch (const InvalidInput& error) {
        for (const Problem& problem : error.problems()) {
            draft.problems.add_error(problem.place, problem.what, problem.hint);
        }
    }
}

}  // namespace

void read_course(Draft& draft, Table& race, Table& road) {
    const int errors_before = draft.problems.error_count();
    CourseRequest request;
    read_source(draft, race, request);
    read_stretches(draft, road, request);
    read_road_as_usual(draft, road, request);
    read_errors(draft, race, request);
    // A course with a wrong number in it would only tell the same mistake again.
    if (draft.problems.error_count() == errors_before) build(draft, request);
}

}  // namespace flattail::scenario
