// The course: a recorded track, a profile or three numbers, with stretches on it.
#include <fmt/format.h>

#include <cmath>

#include "input/text/text_file.h"
#include "input/toml/node_values.h"
#include "input/tracks/track.h"
#include "scenario/tables/read_stretches.h"
#include "scenario/tables/read_tables.h"
#include "scenario/values/defaults.h"

namespace flattail::scenario {

namespace {

using course::CourseRequest;
using input::Node;

// A lap must end near where it began (assumption: start and finish lines may differ).
constexpr double kLapGap_m = 250.0;
constexpr int kMostLaps = 500;

int read_laps(Table& table) {
    const Node* node = table.find("laps");
    if (!node) return 1;
    const auto laps = input::read_whole_number(*node, table.problems());
    if (!laps) return 1;
    if (*laps < 1 || *laps > kMostLaps) {
        table.add_error(*node,
                        fmt::format("race.laps is {}, outside 1 to {}", *laps, kMostLaps),
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
    if (input::trim(node.text).empty()) {
        race.add_error(node, "race.course names no file",
                       "write course = \"lakes.gpx\", or course = { distance = \"90 "
                       "km\", climb = \"400 m\" }");
        return;
    }
    const std::string path = input::resolve_path(node);
    const int laps = read_laps(race);
    const auto track = input::read_track(path, draft.problems, node.place);
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
    if (table.find("climb") && sketch.distance_m > 0.0 &&
        sketch.climb_m > course::kSteepestMeanClimb * sketch.distance_m) {
        table.add_error(*table.find("climb"),
                        fmt::format("race.course climbs {} in {}, which no road does",
                                    write_value(kMetre, sketch.climb_m),
                                    write_value(kKilometre, sketch.distance_m)),
                        "write the climb of the whole course, at most 100 m per km");
    }
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
