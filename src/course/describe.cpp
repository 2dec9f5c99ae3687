#include "course/describe.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "course/path.h"

namespace flattail::course {
namespace {

constexpr double kRow_m = 1000.0;
constexpr double kSlopeBase_m = 100.0;
/// Rises inside a descent that do not end it (common practice).
constexpr double kRiseInDescent_m = 5.0;
/// A bend counts as a corner when its cap is below this share of the descent cap ...
constexpr double kCornerShare = 0.95;
/// ... and two bends are one corner when the road between them is shorter than this.
constexpr double kSameCorner_m = 30.0;
constexpr double kDegPerRad = 57.29577951308232;
constexpr double kClimbThreshold_m = 1.0;

/// Height at any place of the course, places rising from call to call.
class HeightReader {
  public:
    explicit HeightReader(const Course& course) : course_(course) {}
    double read(double place_m) {
        while (at_ + 2 < course_.nodes.size() &&
               course_.nodes[at_ + 1].distance_m <= place_m) {
            ++at_;
        }
        const Node& from = course_.nodes[at_];
        const Node& to = course_.nodes[at_ + 1];
        const double part = std::clamp(
            (place_m - from.distance_m) / (to.distance_m - from.distance_m), 0.0, 1.0);
        return from.elevation_m + part * (to.elevation_m - from.elevation_m);
    }

  private:
    const Course& course_;
    std::size_t at_ = 0;
};

/// Slope over the 100 m (or the whole course, if shorter) from each node on.
std::vector<double> measure_slopes(const Course& course) {
    const double base_m = std::min(kSlopeBase_m, course.length_m);
    HeightReader ahead(course);
    std::vector<double> slopes;
    for (const Node& node : course.nodes) {
        if (node.distance_m + base_m > course.length_m) {
            break;
        }
        slopes.push_back((ahead.read(node.distance_m + base_m) - node.elevation_m) /
                         base_m);
    }
    return slopes;
}

Feature find_steepest_km(const Course& course) {
    const double base_m = std::min(kRow_m, course.length_m);
    HeightReader ahead(course);
    Feature steepest;
    bool found = false;
    for (const Node& node : course.nodes) {
        const double to_m = node.distance_m + base_m;
        if (found && to_m > course.length_m) {
            break;
        }
        const double drop_m = node.elevation_m - ahead.read(to_m);
        if (!found || drop_m < steepest.drop_m) {
            steepest = {node.distance_m, to_m, drop_m, kUncapped_m_s};
            found = true;
        }
    }
    return steepest;
}

Feature find_longest_descent(const Course& course) {
    Feature longest;
    std::size_t top = 0;
    std::size_t foot = 0;
    for (std::size_t i = 1; i < course.nodes.size(); ++i) {
        const double height_m = course.nodes[i].elevation_m;
        if (height_m > course.nodes[foot].elevation_m + kRiseInDescent_m ||
            height_m >= course.nodes[top].elevation_m) {
            top = foot = i;
        } else if (height_m < course.nodes[foot].elevation_m) {
            foot = i;
        }
        const Node& from = course.nodes[top];
        const Node& to = course.nodes[foot];
        if (to.distance_m - from.distance_m > longest.to_m - longest.from_m) {
            longest = {from.distance_m, to.distance_m, from.elevation_m - to.elevation_m,
                       kUncapped_m_s};
        }
    }
    return longest;
}

/// Runs of nodes for which `belongs` holds, joined over gaps shorter than join_m.
template <class Belongs>
std::vector<std::pair<std::size_t, std::size_t>> find_runs(const Course& course,
                                                           double join_m,
                                                           const Belongs& belongs) {
    std::vector<std::pair<std::size_t, std::size_t>> runs;
    for (std::size_t i = 0; i < course.nodes.size(); ++i) {
        if (!belongs(i)) {
            continue;
        }
        const bool joins =
            !runs.empty() &&
            course.nodes[i].distance_m - course.nodes[runs.back().second].distance_m <=
                join_m;
        if (joins) {
            runs.back().second = i;
        } else {
            runs.emplace_back(i, i);
        }
    }
    return runs;
}

Feature tell_run(const Course& course, std::pair<std::size_t, std::size_t> run,
                 double Node::*cap) {
    const Node& from = course.nodes[run.first];
    const Node& to = course.nodes[run.second];
    Feature feature = {from.distance_m, to.distance_m, from.elevation_m - to.elevation_m,
                       kUncapped_m_s};
    for (std::size_t i = run.first; i <= run.second; ++i) {
        feature.lowest_cap_m_s = std::min(feature.lowest_cap_m_s, course.nodes[i].*cap);
    }
    return feature;
}

std::vector<Feature> find_corners(const Course& course) {
    const double limit_m_s = kCornerShare * course.limits.descent_cap_m_s;
    const auto runs = find_runs(course, kSameCorner_m, [&](std::size_t i) {
        return course.nodes[i].corner_cap_m_s < limit_m_s;
    });
    std::vector<Feature> corners;
    for (const auto& run : runs) {
        corners.push_back(tell_run(course, run, &Node::corner_cap_m_s));
    }
    return corners;
}

/// Nodes from which the next cap can only be met by braking at the full deceleration.
std::vector<Feature> find_braking_zones(const Course& course) {
    const auto brakes_from = [&](std::size_t i) {
        if (i + 1 >= course.nodes.size()) {
            return false;
        }
        const double from = course.nodes[i].cap_m_s;
        const double to = course.nodes[i + 1].cap_m_s;
        const double road_m = course.pieces[i].length_m;
        const double fall = (from * from - to * to) / (2.0 * road_m);
        return fall > 0.99 * course.limits.brake_m_s2;
    };
    std::vector<Feature> zones;
    for (auto run : find_runs(course, kSameCorner_m, brakes_from)) {
        ++run.second;  // to the node where braking ends
        zones.push_back(tell_run(course, run, &Node::cap_m_s));
    }
    return zones;
}

int count_corners(const std::vector<Feature>& corners, double from_m, double to_m) {
    return static_cast<int>(
        std::count_if(corners.begin(), corners.end(), [&](const Feature& corner) {
            const double middle_m = 0.5 * (corner.from_m + corner.to_m);
            return middle_m >= from_m && middle_m < to_m;
        }));
}

/// Sums over the pieces of one row.
struct RowSums {
    std::array<double, kSurfaceCount> surface_m{};
    std::vector<double> heights_m;
    double east_m = 0.0;
    double north_m = 0.0;
    double steepest = 0.0;
};

void add_piece(RowSums& sums, const Course& course, std::size_t i,
               const std::vector<double>& slopes) {
    const Piece& piece = course.pieces[i];
    sums.surface_m[static_cast<std::size_t>(index_of(piece.surface))] += piece.length_m;
    sums.heights_m.push_back(course.nodes[i + 1].elevation_m);
    sums.east_m += piece.east * piece.length_m;
    sums.north_m += piece.north * piece.length_m;
    if (i < slopes.size() && std::abs(slopes[i]) > std::abs(sums.steepest)) {
        sums.steepest = slopes[i];
    }
}

KilometreRow finish_row(const RowSums& sums, double from_m, double to_m,
                        const std::vector<Feature>& corners) {
    KilometreRow row;
    row.from_m = from_m;
    row.to_m = to_m;
    std::vector<double> downwards_m;
    for (const double height_m : sums.heights_m) {
        downwards_m.push_back(-height_m);
    }
    row.ascent_m = sum_ascent(sums.heights_m, kClimbThreshold_m);
    row.descent_m = sum_ascent(downwards_m, kClimbThreshold_m);
    row.mean_slope = (sums.heights_m.back() - sums.heights_m.front()) / (to_m - from_m);
    row.steepest_slope = sums.steepest;
    row.corners = count_corners(corners, from_m, to_m);
    const double heading_deg = kDegPerRad * std::atan2(sums.east_m, sums.north_m);
    row.heading_deg = heading_deg < 0.0 ? heading_deg + 360.0 : heading_deg;
    const auto most = std::max_element(sums.surface_m.begin(), sums.surface_m.end());
    row.surface = static_cast<Surface>(most - sums.surface_m.begin());
    return row;
}

std::vector<KilometreRow> make_rows(const Course& course,
                                    const std::vector<Feature>& corners) {
    const std::vector<double> slopes = measure_slopes(course);
    std::vector<KilometreRow> rows;
    std::size_t i = 0;
    while (i < course.pieces.size()) {
        const double from_m = course.nodes[i].distance_m;
        const double end_m = kRow_m * static_cast<double>(rows.size() + 1);
        RowSums sums;
        sums.heights_m.push_back(course.nodes[i].elevation_m);
        do {
            add_piece(sums, course, i, slopes);
            ++i;
        } while (i < course.pieces.size() &&
                 course.nodes[i].distance_m + 0.5 * course.pieces[i].length_m < end_m);
        rows.push_back(finish_row(sums, from_m, course.nodes[i].distance_m, corners));
    }
    return rows;
}

}  // namespace

CourseDescription describe_course(const Course& course) {
    CourseDescription description;
    description.length_m = course.length_m;
    description.raw_length_m = course.raw_length_m;
    description.ascent_raw_m = course.ascent_raw_m;
    description.ascent_m = course.ascent_m;
    description.headings = course.headings;
    description.corners = find_corners(course);
    description.braking_zones = find_braking_zones(course);
    description.kilometres = make_rows(course, description.corners);
    description.steepest_km = find_steepest_km(course);
    description.longest_descent = find_longest_descent(course);
    description.stretches = course.stretches;
    for (const Piece& piece : course.pieces) {
        description.surface_m[static_cast<std::size_t>(index_of(piece.surface))] +=
            piece.length_m;
    }
    return description;
}

}  // namespace flattail::course
