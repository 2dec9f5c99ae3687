#include "course/track.h"

#include <fmt/format.h>

#include <GeographicLib/Geodesic.hpp>
#include <algorithm>
#include <cmath>
#include <iterator>

namespace flattail::course {
namespace {

/// Nearer points than this are one point (common practice: below any receiver's error).
constexpr double kSamePoint_m = 0.05;
/// A detour over a single point is a spike when both of its legs are longer than this and
/// than this many usual legs (common practice; shorter ones are left to the smoothing).
constexpr double kSpikeLeg_m = 30.0;
constexpr double kSpikeLegs = 5.0;
/// ... and the points around it are nearer to each other than this share of a leg.
constexpr double kSpikeShare = 0.5;
/// A single height this far off both neighbours, on slopes no road has, is a spike.
constexpr double kHeightSpike_m = 10.0;
constexpr double kHeightSpikeSlope = 0.5;
/// A leg without points counts as a gap beyond these (common practice: lost reception).
constexpr double kGap_m = 150.0;
constexpr double kGapLegs = 10.0;
/// A gap that keeps its direction within this may be a tunnel.
constexpr double kTunnelTurn_deg = 30.0;
/// Heights outside are no road on Earth (lowest shore -430 m, highest pass below 6 km).
constexpr double kLowestRoad_m = -500.0;
constexpr double kHighestRoad_m = 6500.0;

struct Leg {
    double length_m;
    double azimuth_deg;
};

Leg measure_leg(const RawPoint& from, const RawPoint& to) {
    Leg leg = {0.0, 0.0};
    double azimuth_to_deg = 0.0;
    GeographicLib::Geodesic::WGS84().Inverse(
        from.latitude_deg, from.longitude_deg, to.latitude_deg, to.longitude_deg,
        leg.length_m, leg.azimuth_deg, azimuth_to_deg);
    return leg;
}

double turn_between(double from_deg, double to_deg) {
    return std::abs(std::remainder(to_deg - from_deg, 360.0));
}

bool is_on_globe(const RawPoint& point) {
    return std::abs(point.latitude_deg) <= 90.0 && std::abs(point.longitude_deg) <= 180.0;
}

/// Counts one kind of doubt and says it once, at its first place.
class Doubt {
  public:
    void meet(const RawPoint& point, double place_m) {
        if (count_++ == 0) {
            line_ = point.line;
            place_m_ = place_m;
        }
    }
    void tell(const std::string& file, const char* what, const char* hint,
              base::ProblemList& problems) const {
        if (count_ > 0) {
            problems.add_warning({file, line_, 0},
                                 fmt::format("{}: {}, the first at km {:.2f}", what,
                                             count_, place_m_ / 1000.0),
                                 hint);
        }
    }

  private:
    int count_ = 0;
    int line_ = 0;
    double place_m_ = 0.0;
};

std::vector<double> measure_legs(const std::vector<RawPoint>& points) {
    std::vector<double> legs_m;
    for (std::size_t i = 1; i < points.size(); ++i) {
        legs_m.push_back(measure_leg(points[i - 1], points[i]).length_m);
    }
    return legs_m;
}

double find_median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

std::vector<RawPoint> drop_repeats(const std::vector<RawPoint>& points,
                                   const std::string& file, base::ProblemList& problems) {
    std::vector<RawPoint> kept;
    Doubt repeats;
    Doubt backwards;
    double place_m = 0.0;
    double latest_s = kUnknown;
    for (const RawPoint& point : points) {
        if (point.time_s < latest_s) {
            backwards.meet(point, place_m);
        } else if (!std::isnan(point.time_s)) {
            latest_s = point.time_s;
        }
        const double leg_m =
            kept.empty() ? kSamePoint_m + 1.0 : measure_leg(kept.back(), point).length_m;
        if (leg_m < kSamePoint_m) {
            repeats.meet(point, place_m);
            continue;
        }
        place_m += kept.empty() ? 0.0 : leg_m;
        kept.push_back(point);
    }
    repeats.tell(file, "points on top of the point before them, left out",
                 "nothing to do unless the recording stopped there", problems);
    backwards.tell(
        file, "points with a time before that of an earlier point",
        "the order of the points in the file is used; check that it is the route",
        problems);
    return kept;
}

/// True when point i is a lone jump away from a line that goes on without it. The turning
/// point of an out-and-back road is none: there the line itself comes back.
bool is_spike(const std::vector<RawPoint>& points, std::size_t i, double usual_leg_m) {
    if (i < 2 || i + 2 >= points.size()) {
        return false;
    }
    const double longest_m = std::max(kSpikeLeg_m, kSpikeLegs * usual_leg_m);
    const double there_m = measure_leg(points[i - 1], points[i]).length_m;
    const double back_m = measure_leg(points[i], points[i + 1]).length_m;
    const Leg across = measure_leg(points[i - 1], points[i + 1]);
    if (std::min(there_m, back_m) < longest_m ||
        across.length_m > kSpikeShare * std::min(there_m, back_m)) {
        return false;
    }
    const double before_deg = measure_leg(points[i - 2], points[i - 1]).azimuth_deg;
    const double after_deg = measure_leg(points[i + 1], points[i + 2]).azimuth_deg;
    return turn_between(before_deg, after_deg) < 90.0;
}

std::vector<RawPoint> drop_spikes(const std::vector<RawPoint>& points,
                                  const std::string& file, base::ProblemList& problems) {
    const double usual_leg_m = find_median(measure_legs(points));
    std::vector<RawPoint> kept;
    Doubt spikes;
    double place_m = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (is_spike(points, i, usual_leg_m)) {
            spikes.meet(points[i], place_m);
            continue;
        }
        place_m += kept.empty() ? 0.0 : measure_leg(kept.back(), points[i]).length_m;
        kept.push_back(points[i]);
    }
    spikes.tell(file, "points far off the line, left out",
                "look at the track on a map there", problems);
    return kept;
}

void tell_gaps(const std::vector<RawPoint>& points, const std::string& file,
               base::ProblemList& problems) {
    const std::vector<double> legs_m = measure_legs(points);
    const double shortest_m = std::max(kGap_m, kGapLegs * find_median(legs_m));
    Doubt gaps;
    Doubt tunnels;
    double place_m = 0.0;
    for (std::size_t i = 0; i < legs_m.size(); ++i) {
        if (legs_m[i] > shortest_m) {
            const bool inside = i > 0 && i + 2 < points.size();
            const double turn_deg =
                inside
                    ? turn_between(measure_leg(points[i - 1], points[i]).azimuth_deg,
                                   measure_leg(points[i + 1], points[i + 2]).azimuth_deg)
                    : 180.0;
            (turn_deg < kTunnelTurn_deg ? tunnels : gaps).meet(points[i], place_m);
        }
        place_m += legs_m[i];
    }
    gaps.tell(file, "gaps without points, ridden as straight lines",
              "add the missing points, or state official_distance", problems);
    tunnels.tell(file, "gaps without points that keep their direction, perhaps a tunnel",
                 "ridden straight and evenly; check the heights on both sides", problems);
}

/// Legs' slopes on both sides of a height that stands alone.
bool is_height_spike(const std::vector<RawPoint>& points,
                     const std::vector<double>& legs_m, std::size_t i) {
    if (i == 0 || i + 1 >= points.size()) {
        return false;
    }
    const double up_m = points[i].elevation_m - points[i - 1].elevation_m;
    const double down_m = points[i].elevation_m - points[i + 1].elevation_m;
    return up_m * down_m > 0.0 &&
           std::min(std::abs(up_m), std::abs(down_m)) > kHeightSpike_m &&
           std::abs(up_m) > kHeightSpikeSlope * legs_m[i - 1] &&
           std::abs(down_m) > kHeightSpikeSlope * legs_m[i];
}

/// Marks heights that cannot be as unknown.
void drop_wrong_heights(std::vector<RawPoint>& points, const std::vector<double>& legs_m,
                        const std::string& file, base::ProblemList& problems) {
    Doubt wrong;
    std::vector<std::size_t> dropped;
    double place_m = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double height_m = points[i].elevation_m;
        const bool outside = height_m < kLowestRoad_m || height_m > kHighestRoad_m;
        if (outside || std::isinf(height_m) || is_height_spike(points, legs_m, i)) {
            wrong.meet(points[i], place_m);
            dropped.push_back(i);
        }
        place_m += i < legs_m.size() ? legs_m[i] : 0.0;
    }
    for (const std::size_t i : dropped) {
        points[i].elevation_m = kUnknown;
    }
    wrong.tell(file, "heights that cannot be right, replaced from their neighbours",
               "look at the heights of the track there", problems);
}

/// Gives each unknown height the line between its known neighbours.
void fill_heights(std::vector<RawPoint>& points, const std::vector<double>& legs_m) {
    std::vector<double> place_m(points.size(), 0.0);
    std::vector<std::size_t> known;
    for (std::size_t i = 0; i < points.size(); ++i) {
        place_m[i] = i > 0 ? place_m[i - 1] + legs_m[i - 1] : 0.0;
        if (!std::isnan(points[i].elevation_m)) {
            known.push_back(i);
        }
    }
    for (std::size_t i = 0; i < points.size(); ++i) {
        const auto after = std::lower_bound(known.begin(), known.end(), i);
        if (after == known.end() || after == known.begin()) {
            const std::size_t nearest =
                after == known.end() ? known.back() : known.front();
            points[i].elevation_m = points[nearest].elevation_m;
        } else if (*after != i) {
            const std::size_t left = *std::prev(after);
            const double part =
                (place_m[i] - place_m[left]) / (place_m[*after] - place_m[left]);
            points[i].elevation_m =
                points[left].elevation_m +
                part * (points[*after].elevation_m - points[left].elevation_m);
        }
    }
}

void complete_heights(std::vector<RawPoint>& points, const std::string& file,
                      base::ProblemList& problems) {
    const std::vector<double> legs_m = measure_legs(points);
    Doubt missing;
    double place_m = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (std::isnan(points[i].elevation_m)) {
            missing.meet(points[i], place_m);
        }
        place_m += i < legs_m.size() ? legs_m[i] : 0.0;
    }
    drop_wrong_heights(points, legs_m, file, problems);
    const bool none =
        std::all_of(points.begin(), points.end(),
                    [](const RawPoint& point) { return std::isnan(point.elevation_m); });
    if (none) {
        problems.add_warning({file, 0, 0},
                             "no point has a height, the road is taken as flat",
                             "use a track with heights, or state distance and climb");
        for (RawPoint& point : points) {
            point.elevation_m = 0.0;
        }
        return;
    }
    missing.tell(file, "points without a height, filled in from their neighbours",
                 "nothing to do if they are few", problems);
    fill_heights(points, legs_m);
}

}  // namespace

std::vector<RawPoint> clean_track(const RawTrack& track, const std::string& file,
                                  base::ProblemList& problems) {
    const auto off =
        std::find_if_not(track.points.begin(), track.points.end(), is_on_globe);
    if (off != track.points.end()) {
        problems.add_error({file, off->line, 0},
                           fmt::format("the point {:.6f}, {:.6f} is not on the globe",
                                       off->latitude_deg, off->longitude_deg),
                           "latitude -90 to 90, longitude -180 to 180, in degrees");
        return {};
    }
    std::vector<RawPoint> points = drop_repeats(track.points, file, problems);
    if (points.size() < 3) {
        problems.add_error({file, 0, 0},
                           fmt::format("a course needs at least 3 different points; this "
                                       "track has {}",
                                       points.size()),
                           "record or draw the whole route, or state distance and climb");
        return {};
    }
    points = drop_spikes(points, file, problems);
    tell_gaps(points, file, problems);
    complete_heights(points, file, problems);
    return points;
}

void check_profile(const RawProfile& profile, const std::string& file,
                   base::ProblemList& problems) {
    const std::size_t count = profile.distance_m.size();
    if (count < 2 || count != profile.elevation_m.size()) {
        problems.add_error({file, 0, 0},
                           fmt::format("a profile needs at least 2 rows of distance and "
                                       "elevation; this one has {} and {}",
                                       count, profile.elevation_m.size()),
                           "one row per place, from the start to the finish");
        return;
    }
    for (std::size_t i = 0; i < count; ++i) {
        if (!std::isfinite(profile.distance_m[i]) ||
            !std::isfinite(profile.elevation_m[i])) {
            problems.add_error({file, 0, 0},
                               fmt::format("row {} of the profile is no number", i + 1),
                               "a distance and an elevation in each row");
        } else if (i > 0 && profile.distance_m[i] < profile.distance_m[i - 1]) {
            problems.add_error(
                {file, 0, 0},
                fmt::format("the distance falls from {:g} m to {:g} m in row "
                            "{} of the profile",
                            profile.distance_m[i - 1], profile.distance_m[i], i + 1),
                "sort the rows by distance from the start");
        }
    }
}

}  // namespace flattail::course
