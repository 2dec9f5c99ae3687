#include "course/path.h"

#include <GeographicLib/Geodesic.hpp>
#include <algorithm>
#include <array>
#include <cmath>

#include "base/expects.h"

namespace flattail::course {
namespace {

/// A road turns back where it is as near to itself as this (two lanes and the recorded
/// errors; assumption) this far before and after. Legs of hairpins are 20 m apart and
/// more.
constexpr double kBesideItself_m = 12.0;
constexpr double kReach_m = 50.0;
constexpr double kRadPerDeg = 0.017453292519943295;  // exact to double

struct Leg {
    double length_m;
    double east;
    double north;
};

/// Length and mean true heading of the geodesic between two points.
Leg measure_leg(const RawPoint& from, const RawPoint& to) {
    double length_m = 0.0;
    double azimuth_from_deg = 0.0;
    double azimuth_to_deg = 0.0;
    GeographicLib::Geodesic::WGS84().Inverse(from.latitude_deg, from.longitude_deg,
                                             to.latitude_deg, to.longitude_deg, length_m,
                                             azimuth_from_deg, azimuth_to_deg);
    const double east =
        std::sin(azimuth_from_deg * kRadPerDeg) + std::sin(azimuth_to_deg * kRadPerDeg);
    const double north =
        std::cos(azimuth_from_deg * kRadPerDeg) + std::cos(azimuth_to_deg * kRadPerDeg);
    const double norm = std::hypot(east, north);
    return {length_m, norm > 0.0 ? east / norm : 0.0, norm > 0.0 ? north / norm : 1.0};
}

using Columns = std::array<std::vector<double>*, 5>;

Columns columns_of(Path& path) {
    return {&path.east_m, &path.north_m, &path.elevation_m, &path.latitude_deg,
            &path.longitude_deg};
}

/// Integral of the broken line (distance, value) up to each point.
std::vector<double> integrate_line(const std::vector<double>& distance_m,
                                   const std::vector<double>& value) {
    std::vector<double> integral(value.size(), 0.0);
    for (std::size_t i = 1; i < value.size(); ++i) {
        integral[i] = integral[i - 1] + 0.5 * (value[i - 1] + value[i]) *
                                            (distance_m[i] - distance_m[i - 1]);
    }
    return integral;
}

/// Walks along one column and gives its integral at rising places.
class LineIntegral {
  public:
    LineIntegral(const std::vector<double>& distance_m, const std::vector<double>& value)
        : distance_m_(distance_m),
          value_(value),
          integral_(integrate_line(distance_m, value)) {}

    double up_to(double place_m) {
        while (at_ + 2 < distance_m_.size() && distance_m_[at_ + 1] < place_m) {
            ++at_;
        }
        const double leg_m = distance_m_[at_ + 1] - distance_m_[at_];
        const double part_m = std::clamp(place_m - distance_m_[at_], 0.0, leg_m);
        const double change = value_[at_ + 1] - value_[at_];
        const double slope = leg_m > 0.0 ? change / leg_m : 0.0;
        return integral_[at_] + part_m * (value_[at_] + 0.5 * slope * part_m);
    }

  private:
    const std::vector<double>& distance_m_;
    const std::vector<double>& value_;
    std::vector<double> integral_;
    std::size_t at_ = 0;
};

/// Means over whole cells; half cells at the ends would be centred a quarter cell inside,
/// so they are carried out to the end along their own trend.
std::vector<double> average_column(const std::vector<double>& distance_m,
                                   const std::vector<double>& value, std::size_t cells,
                                   double spacing_m) {
    LineIntegral integral(distance_m, value);
    std::vector<double> mean(cells + 1);
    double before = 0.0;
    for (std::size_t j = 0; j <= cells; ++j) {
        const double end_m = std::min((static_cast<double>(j) + 0.5) * spacing_m,
                                      static_cast<double>(cells) * spacing_m);
        const double width_m = (j == 0 || j == cells) ? 0.5 * spacing_m : spacing_m;
        const double after = integral.up_to(end_m);
        mean[j] = (after - before) / width_m;
        before = after;
    }
    mean.front() += (mean.front() - mean[1]) / 3.0;
    mean.back() += (mean.back() - mean[cells - 1]) / 3.0;
    return mean;
}

void append_point(Path& path, const Path& from, std::size_t first, std::size_t last) {
    const double share = 1.0 / static_cast<double>(last - first);
    auto mean = [&](const std::vector<double>& column) {
        double sum = 0.0;
        for (std::size_t i = first; i < last; ++i) {
            sum += column[i];
        }
        return sum * share;
    };
    path.distance_m.push_back(0.0);
    path.east_m.push_back(mean(from.east_m));
    path.north_m.push_back(mean(from.north_m));
    path.elevation_m.push_back(mean(from.elevation_m));
    path.latitude_deg.push_back(mean(from.latitude_deg));
    path.longitude_deg.push_back(mean(from.longitude_deg));
}

}  // namespace

Path roll_out(const std::vector<RawPoint>& points) {
    FLATTAIL_EXPECTS(!points.empty());
    Path path;
    double turns_deg = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        Leg leg = {0.0, 0.0, 1.0};
        if (i > 0) {
            leg = measure_leg(points[i - 1], points[i]);
            const double jump_deg = points[i].longitude_deg - points[i - 1].longitude_deg;
            turns_deg += jump_deg > 180.0 ? -360.0 : (jump_deg < -180.0 ? 360.0 : 0.0);
        }
        path.distance_m.push_back(path.length_m() + leg.length_m);
        path.east_m.push_back((i > 0 ? path.east_m.back() : 0.0) +
                              leg.length_m * leg.east);
        path.north_m.push_back((i > 0 ? path.north_m.back() : 0.0) +
                               leg.length_m * leg.north);
        path.elevation_m.push_back(points[i].elevation_m);
        path.latitude_deg.push_back(points[i].latitude_deg);
        path.longitude_deg.push_back(points[i].longitude_deg + turns_deg);
    }
    return path;
}

Path lay_straight(const RawProfile& profile) {
    Path path;
    for (std::size_t i = 0; i < profile.distance_m.size(); ++i) {
        path.distance_m.push_back(profile.distance_m[i] - profile.distance_m.front());
        path.east_m.push_back(path.distance_m.back());
        path.north_m.push_back(0.0);
        path.elevation_m.push_back(profile.elevation_m[i]);
        path.latitude_deg.push_back(kUnknown);
        path.longitude_deg.push_back(kUnknown);
    }
    return path;
}

Path gather_points(const Path& path, double radius_m) {
    Path gathered;
    const std::size_t count = path.size();
    std::size_t first = 0;
    while (first < count) {
        std::size_t last = first + 1;
        while (first > 0 && last + 1 < count &&
               std::hypot(path.east_m[last] - path.east_m[first],
                          path.north_m[last] - path.north_m[first]) < radius_m) {
            ++last;
        }
        append_point(gathered, path, first, last);
        first = last;
    }
    remeasure(gathered);
    return gathered;
}

std::vector<std::size_t> find_turning_points(const Path& path) {
    std::vector<std::size_t> turns;
    double nearest_m = kBesideItself_m;
    double latest_m = -kReach_m;
    std::size_t before = 0;
    std::size_t after = 0;
    for (std::size_t i = 0; i < path.size(); ++i) {
        const double here_m = path.distance_m[i];
        while (path.distance_m[before] < here_m - kReach_m) {
            ++before;
        }
        while (after + 1 < path.size() && path.distance_m[after] < here_m + kReach_m) {
            ++after;
        }
        if (here_m < kReach_m || here_m > path.length_m() - kReach_m) {
            continue;
        }
        const double apart_m = std::hypot(path.east_m[after] - path.east_m[before],
                                          path.north_m[after] - path.north_m[before]);
        const double out_m = std::hypot(path.east_m[i] - path.east_m[before],
                                        path.north_m[i] - path.north_m[before]);
        const bool same_turn = here_m < latest_m + kReach_m;
        if (apart_m > kBesideItself_m || out_m < 2.0 * kBesideItself_m) {
            continue;
        }
        if (!same_turn) {
            turns.push_back(i);
        } else if (apart_m < nearest_m) {
            turns.back() = i;
        }
        nearest_m = same_turn ? std::min(nearest_m, apart_m) : apart_m;
        latest_m = same_turn ? latest_m : here_m;
    }
    return turns;
}

Path average_cells(const Path& path, double spacing_m) {
    FLATTAIL_EXPECTS(path.size() >= 2 && path.length_m() > 0.0 && spacing_m > 0.0);
    const double wanted = std::ceil(path.length_m() / spacing_m);
    const std::size_t cells = static_cast<std::size_t>(std::max(4.0, wanted));
    const double fitted_m = path.length_m() / static_cast<double>(cells);
    Path mean = path;
    const Columns columns = columns_of(mean);
    for (std::vector<double>* column : columns) {
        *column = average_column(path.distance_m, *column, cells, fitted_m);
    }
    mean.distance_m.resize(cells + 1);
    for (std::size_t j = 0; j <= cells; ++j) {
        mean.distance_m[j] = static_cast<double>(j) * fitted_m;
    }
    return mean;
}

void remeasure(Path& path) {
    double length_m = 0.0;
    for (std::size_t i = 0; i < path.size(); ++i) {
        if (i > 0) {
            length_m += std::hypot(path.east_m[i] - path.east_m[i - 1],
                                   path.north_m[i] - path.north_m[i - 1]);
        }
        path.distance_m[i] = length_m;
    }
}

double sum_ascent(const std::vector<double>& elevation_m, double threshold_m) {
    if (elevation_m.empty()) {
        return 0.0;
    }
    double ascent_m = 0.0;
    double foot_m = elevation_m.front();
    double top_m = elevation_m.front();
    for (const double height_m : elevation_m) {
        if (height_m > top_m) {
            top_m = height_m;
        }
        const bool climbing = top_m - foot_m > threshold_m;
        if (climbing && top_m - height_m > threshold_m) {
            ascent_m += top_m - foot_m;
            foot_m = top_m = height_m;
        } else if (!climbing && height_m < foot_m) {
            foot_m = top_m = height_m;
        }
    }
    return ascent_m + (top_m - foot_m > threshold_m ? top_m - foot_m : 0.0);
}

}  // namespace flattail::course
