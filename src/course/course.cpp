#include "course/course.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/problem_list.h"
#include "course/caps.h"
#include "course/path.h"
#include "course/sketch.h"
#include "course/smoothing.h"
#include "course/stretches.h"
#include "course/track.h"

namespace flattail::course {
namespace {

constexpr double kTwoPi = 6.283185307179586;
/// Pieces are no longer than this; the braking and the relaxation of speed take several.
constexpr double kPieceLength_m = 12.0;
/// Points nearer than this many errors to each other are one place (stops).
constexpr double kGatherErrors = 1.5;
constexpr double kGatherAtMost_m = 6.0;
/// A rise counts as climb from here on (common practice for recorded heights).
constexpr double kClimbThreshold_m = 1.0;
/// An official distance may differ by this share before it is doubted, and refused.
constexpr double kDoubtfulDistance = 0.03;
constexpr double kWrongDistance = 0.30;
constexpr double kShortestCourse_m = 200.0;
constexpr double kLongestCourse_m = 2.0e6;
/// The steepest paved streets are near 35 %; courses stay below 25 % (common practice).
constexpr double kSteepRoad = 0.25;

template <class... Visitors>
struct Overloaded : Visitors... {
    using Visitors::operator()...;
};
template <class... Visitors>
Overloaded(Visitors...) -> Overloaded<Visitors...>;

/// The smoothed road of any source, before lengths are final.
struct Road {
    Path path;
    std::vector<double> curvature_per_m;
    Course course;  ///< carries what is already known of the result
};

void check_numbers(const CourseRequest& request, base::ProblemList& problems) {
    const Place place = {request.source_file, 0, 0};
    auto need_positive = [&](double value, const char* name) {
        if (!(value > 0.0) || !std::isfinite(value)) {
            problems.add_error(place, fmt::format("{} is {:g}", name, value),
                               "a number above 0");
        }
    };
    need_positive(request.position_error_m, "position error");
    need_positive(request.height_error_m, "height error");
    need_positive(request.limits.lateral_m_s2, "sideways limit in corners");
    need_positive(request.limits.descent_cap_m_s, "speed limit on descents");
    need_positive(request.limits.brake_m_s2, "deceleration of braking");
    if (request.official_distance_m) {
        need_positive(*request.official_distance_m, "official distance");
    }
}

void check_length(double length_m, const std::string& file, base::ProblemList& problems) {
    if (!(length_m >= kShortestCourse_m && length_m <= kLongestCourse_m)) {
        problems.add_error({file, 0, 0},
                           fmt::format("the course is {:.1f} m long", length_m),
                           "a course has 200 m to 2,000 km");
    }
}

/// Readings nearer than this to each other show their own noise, not the ground.
constexpr double kTellingStep_m = 25.0;
/// The noise seen may pass the stated error by this factor before it is worth a word.
constexpr double kLoudNoise = 1.3;

void tell_noise(const SmoothPath& smooth, const Path& measured,
                const CourseRequest& request, base::ProblemList& problems) {
    const double step_m = measured.length_m() / static_cast<double>(measured.size());
    auto tell = [&](double seen_m, double stated_m, const char* what, const char* hint) {
        if (step_m < kTellingStep_m && std::isfinite(seen_m) &&
            seen_m > kLoudNoise * stated_m) {
            problems.add_warning(
                {request.source_file, 0, 0},
                fmt::format("the {} scatter by about {:.1f} m, more than the "
                            "error of {:g} m that is allowed for",
                            what, seen_m, stated_m),
                hint);
        }
    };
    tell(smooth.plan_noise_m, request.position_error_m, "positions",
         "state a larger position error, else false corners remain");
    tell(smooth.height_noise_m, request.height_error_m, "heights",
         "state a larger height error, else false climbs remain");
}

/// Smooths a measured path, and keeps what was measured for comparison.
Road smooth_road(const Path& measured, const Path& gathered, const CourseRequest& request,
                 Headings headings, base::ProblemList& problems) {
    Road road;
    SmoothPath smooth =
        smooth_path(gathered, {request.position_error_m, request.height_error_m});
    tell_noise(smooth, measured, request, problems);
    road.course.raw_length_m = measured.length_m();
    road.course.ascent_raw_m = sum_ascent(measured.elevation_m, 0.0);
    road.course.plan_cutoff_m =
        headings == Headings::kFromTrack ? smooth.plan_cutoff_m : 0.0;
    road.course.height_cutoff_m = smooth.height_cutoff_m;
    road.course.headings = headings;
    road.curvature_per_m = measure_curvature(smooth.path);
    road.path = std::move(smooth.path);
    return road;
}

Road read_track_road(const RawTrack& track, const CourseRequest& request,
                     base::ProblemList& problems) {
    const std::vector<RawPoint> points =
        clean_track(track, request.source_file, problems);
    problems.throw_if_errors();
    const Path measured = roll_out(points);
    const double radius_m =
        std::min(kGatherErrors * request.position_error_m, kGatherAtMost_m);
    const Path gathered = gather_points(measured, radius_m);
    check_length(gathered.length_m(), request.source_file, problems);
    problems.throw_if_errors();
    return smooth_road(measured, gathered, request, Headings::kFromTrack, problems);
}

Road read_profile_road(const RawProfile& profile, const CourseRequest& request,
                       base::ProblemList& problems) {
    check_profile(profile, request.source_file, problems);
    problems.throw_if_errors();
    const Path measured = lay_straight(profile);
    check_length(measured.length_m(), request.source_file, problems);
    problems.throw_if_errors();
    problems.add_warning(
        {request.source_file, 0, 0},
        "the profile has no directions: the road is taken as one round loop",
        "use a track if the wind matters");
    return smooth_road(measured, measured, request, Headings::kAssumedLoop, problems);
}

Road read_sketch_road(const RawSketch& sketch, const CourseRequest& request,
                      base::ProblemList& problems) {
    check_sketch(sketch, request.source_file, problems);
    problems.throw_if_errors();
    Road road;
    road.path = draw_sketch(sketch, kPieceLength_m);
    road.curvature_per_m.assign(road.path.size(), 0.0);
    road.course.raw_length_m = sketch.distance_m;
    road.course.ascent_raw_m = sketch.climb_m;
    road.course.headings = Headings::kAssumedOutAndBack;
    return road;
}

Road read_road(const CourseRequest& request, base::ProblemList& problems) {
    return std::visit(Overloaded{[&](const RawTrack& track) {
                                     return read_track_road(track, request, problems);
                                 },
                                 [&](const RawProfile& profile) {
                                     return read_profile_road(profile, request, problems);
                                 },
                                 [&](const RawSketch& sketch) {
                                     return read_sketch_road(sketch, request, problems);
                                 }},
                      request.source);
}

/// Length along the road of each cell: a track's own distance lies in the plane, those of
/// a profile or a sketch are read along the road already.
std::vector<double> measure_road(const Road& road) {
    const Path& path = road.path;
    if (road.course.headings != Headings::kFromTrack) {
        return path.distance_m;
    }
    std::vector<double> along_m(path.size(), 0.0);
    for (std::size_t j = 1; j < path.size(); ++j) {
        along_m[j] =
            along_m[j - 1] + std::hypot(path.distance_m[j] - path.distance_m[j - 1],
                                        path.elevation_m[j] - path.elevation_m[j - 1]);
    }
    return along_m;
}

/// The factor that makes the length official, after a look at whether it can be.
double find_scale(double length_m, const CourseRequest& request,
                  base::ProblemList& problems) {
    if (!request.official_distance_m) {
        return 1.0;
    }
    const double scale = *request.official_distance_m / length_m;
    const std::string what = fmt::format(
        "the official distance of {:.2f} km is not that of the file, {:.2f} km",
        *request.official_distance_m / 1000.0, length_m / 1000.0);
    if (std::abs(scale - 1.0) > kWrongDistance) {
        problems.add_error({request.source_file, 0, 0}, what,
                           "use the file of the whole course, all laps in it");
    } else if (std::abs(scale - 1.0) > kDoubtfulDistance) {
        problems.add_warning({request.source_file, 0, 0}, what,
                             "the road is stretched to it; check both");
    }
    return scale;
}

/// Reads one column of the cells at a rising place, and the sharpest bend around it.
class CellReader {
  public:
    CellReader(const Road& road, const std::vector<double>& along_m)
        : road_(road), along_m_(along_m) {}

    void move_to(double place_m) {
        while (cell_ + 2 < along_m_.size() && along_m_[cell_ + 1] <= place_m) {
            ++cell_;
        }
        const double leg_m = along_m_[cell_ + 1] - along_m_[cell_];
        part_ =
            leg_m > 0.0 ? std::clamp((place_m - along_m_[cell_]) / leg_m, 0.0, 1.0) : 0.0;
    }
    double read(const std::vector<double>& column) const {
        return column[cell_] + part_ * (column[cell_ + 1] - column[cell_]);
    }
    double read_sharpest(double reach_m) const {
        const double place_m = read(along_m_);
        double sharpest = 0.0;
        for (std::size_t j = cell_ + 1;
             j < along_m_.size() && along_m_[j] <= place_m + reach_m; ++j) {
            sharpest = take_sharper(sharpest, road_.curvature_per_m[j]);
        }
        for (std::size_t j = cell_ + 1; j-- > 0 && along_m_[j] >= place_m - reach_m;) {
            sharpest = take_sharper(sharpest, road_.curvature_per_m[j]);
        }
        return sharpest;
    }

  private:
    static double take_sharper(double a, double b) {
        return std::abs(b) > std::abs(a) ? b : a;
    }

    const Road& road_;
    const std::vector<double>& along_m_;
    std::size_t cell_ = 0;
    double part_ = 0.0;
};

/// Evenly spaced places between each two borders.
std::vector<double> place_nodes(const std::vector<double>& borders, double longest_m) {
    std::vector<double> places = {borders.front()};
    for (std::size_t b = 1; b < borders.size(); ++b) {
        const double road_m = borders[b] - borders[b - 1];
        const int count = std::max(1, static_cast<int>(std::ceil(road_m / longest_m)));
        for (int i = 1; i < count; ++i) {
            places.push_back(borders[b - 1] + road_m * i / count);
        }
        places.push_back(borders[b]);
    }
    return places;
}

double wrap_longitude(double longitude_deg) {
    return std::remainder(longitude_deg, 360.0);
}

Piece join_nodes(const Node& from, const Node& to, double east_m, double north_m) {
    Piece piece;
    piece.length_m = to.distance_m - from.distance_m;
    piece.sin_slope =
        std::clamp((to.elevation_m - from.elevation_m) / piece.length_m, -0.99, 0.99);
    const double norm_m = std::hypot(east_m, north_m);
    piece.east = norm_m > 0.0 ? east_m / norm_m : 0.0;
    piece.north = norm_m > 0.0 ? north_m / norm_m : 1.0;
    return piece;
}

void set_nodes(const Road& road, std::vector<double> along_m, double scale,
               Course& course) {
    for (double& place_m : along_m) {
        place_m *= scale;
    }
    const double longest_m =
        std::max(kPieceLength_m, course.length_m / static_cast<double>(kMaxCells));
    const std::vector<double> places =
        place_nodes(list_borders(course.stretches, course.length_m), longest_m);
    CellReader reader(road, along_m);
    double east_m = 0.0;
    double north_m = 0.0;
    for (const double place_m : places) {
        reader.move_to(place_m);
        Node node;
        node.distance_m = place_m;
        node.elevation_m = reader.read(road.path.elevation_m);
        node.latitude_deg = reader.read(road.path.latitude_deg);
        node.longitude_deg = wrap_longitude(reader.read(road.path.longitude_deg));
        node.curvature_per_m = reader.read_sharpest(0.5 * longest_m) / scale;
        const double new_east_m = reader.read(road.path.east_m);
        const double new_north_m = reader.read(road.path.north_m);
        if (!course.nodes.empty()) {
            course.pieces.push_back(join_nodes(
                course.nodes.back(), node, new_east_m - east_m, new_north_m - north_m));
        }
        east_m = new_east_m;
        north_m = new_north_m;
        course.nodes.push_back(node);
    }
}

/// One round loop, clockwise from the north, for a profile without directions.
void turn_around_loop(Course& course) {
    for (std::size_t i = 0; i < course.pieces.size(); ++i) {
        Piece& piece = course.pieces[i];
        const double middle_m = course.nodes[i].distance_m + 0.5 * piece.length_m;
        piece.east = std::sin(kTwoPi * middle_m / course.length_m);
        piece.north = std::cos(kTwoPi * middle_m / course.length_m);
    }
}

void tell_steep_road(const Course& course, const std::string& file,
                     base::ProblemList& problems) {
    const auto steepest = std::max_element(
        course.pieces.begin(), course.pieces.end(), [](const Piece& a, const Piece& b) {
            return std::abs(a.sin_slope) < std::abs(b.sin_slope);
        });
    if (std::abs(steepest->sin_slope) > kSteepRoad) {
        const std::size_t i = static_cast<std::size_t>(steepest - course.pieces.begin());
        problems.add_warning(
            {file, 0, 0},
            fmt::format("the road has a slope of {:.0f} % at km {:.2f}",
                        100.0 * steepest->sin_slope, course.nodes[i].distance_m / 1000.0),
            "a tunnel or bridge often gets the height of the ground above or below it");
    }
}

std::vector<Problem> pick_warnings(const base::ProblemList& problems) {
    std::vector<Problem> warnings;
    for (const Problem& problem : problems.all()) {
        if (problem.severity == Severity::kWarning) {
            warnings.push_back(problem);
        }
    }
    return warnings;
}

std::vector<double> list_heights(const Course& course) {
    std::vector<double> heights_m;
    for (const Node& node : course.nodes) {
        heights_m.push_back(node.elevation_m);
    }
    return heights_m;
}

}  // namespace

Course build_course(const CourseRequest& request) {
    base::ProblemList problems;
    check_numbers(request, problems);
    problems.throw_if_errors();
    Road road = read_road(request, problems);
    const std::vector<double> along_m = measure_road(road);
    const double scale = find_scale(along_m.back(), request, problems);
    Course course = std::move(road.course);
    course.length_m = request.official_distance_m.value_or(along_m.back());
    course.limits = request.limits;
    course.stretches = check_stretches(request.stretches, request.stretch_file,
                                       course.length_m, problems);
    problems.throw_if_errors();
    set_nodes(road, along_m, scale, course);
    if (course.headings == Headings::kAssumedLoop) {
        turn_around_loop(course);
    }
    lay_stretches(course, request.road);
    set_caps(course);
    const bool drawn = course.headings == Headings::kAssumedOutAndBack;
    course.ascent_m = sum_ascent(list_heights(course), drawn ? 0.0 : kClimbThreshold_m);
    tell_steep_road(course, request.source_file, problems);
    course.warnings = pick_warnings(problems);
    return course;
}

}  // namespace flattail::course
