// A line over the ground, rolled out on a plane that keeps each leg's length and
// direction.
#pragma once

#include <cstddef>
#include <vector>

#include "course/request.h"

namespace flattail::course {

/// Shapes: every vector has one entry per point
/// Units:  east_m and north_m are sums of legs; they are no map, see roll_out()
struct Path {
    std::vector<double> distance_m;  ///< along the ground, never falling
    std::vector<double> east_m;
    std::vector<double> north_m;
    std::vector<double> elevation_m;
    std::vector<double> latitude_deg;
    std::vector<double> longitude_deg;  ///< without jumps at 180 degrees

    std::size_t size() const { return distance_m.size(); }
    double length_m() const { return distance_m.empty() ? 0.0 : distance_m.back(); }
};

/// The points as a path whose legs have the length and true heading of the geodesics.
/// A closed course need not close on the plane (meridians converge), but every local
/// angle and length is right, which a map projection cannot give over 100 km.
/// Source: METHOD 7.1 (Karney 2013, geodesics on WGS 84)
Path roll_out(const std::vector<RawPoint>& points);

/// A profile as a straight path to the east.
Path lay_straight(const RawProfile& profile);

/// Runs of points that stay within radius_m of their first one, each replaced by its
/// mean, so that a stop does not count as road. The two ends stay where they are.
Path gather_points(const Path& path, double radius_m);

/// Indices of the points where the road turns back on itself, as around a cone: 50 m
/// before and after are nearer to each other than two legs of any hairpin.
std::vector<std::size_t> find_turning_points(const Path& path);

/// Means of the path over cells of spacing_m, exact for the broken line through its
/// points.
/// The spacing is adjusted so that cells fit; the first and last are centred on the ends.
Path average_cells(const Path& path, double spacing_m);

/// The path with distance measured along its own line in the plane.
void remeasure(Path& path);

/// Sum of the rises of a height sequence; a rise counts once it exceeds threshold_m, then
/// from its foot to its top. Threshold 0 sums every rise.
double sum_ascent(const std::vector<double>& elevation_m, double threshold_m);

}  // namespace flattail::course
