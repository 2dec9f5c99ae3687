#include "course/path.h"

#include <GeographicLib/GeodesicLine.hpp>

#include "support/catch.h"
#include "unit/course/tracks.h"

using namespace flattail::course;
using namespace flattail::course::test;

TEST_CASE("the rolled-out length of a geodesic is that of the reference library") {
    // 300 km from 60 N to the south-east, in legs of 100 m: legs add up to the whole.
    const GeographicLib::GeodesicLine line =
        GeographicLib::Geodesic::WGS84().Line(60.0, 5.0, 120.0);
    std::vector<RawPoint> points;
    for (int i = 0; i <= 3000; ++i) {
        RawPoint point;
        line.Position(100.0 * i, point.latitude_deg, point.longitude_deg);
        point.elevation_m = 0.0;
        points.push_back(point);
    }
    const Path path = roll_out(points);
    CHECK(path.length_m() == Approx(300000.0).epsilon(1e-10));
    // Heading against true north where the line has got to, which a map of the whole
    // would not give: azimuth there from the library.
    double latitude_deg = 0.0;
    double longitude_deg = 0.0;
    double azimuth_deg = 0.0;
    line.Position(299950.0, latitude_deg, longitude_deg, azimuth_deg);
    const std::size_t last = path.size() - 1;
    const double heading_deg = 180.0 / M_PI *
                               std::atan2(path.east_m[last] - path.east_m[last - 1],
                                          path.north_m[last] - path.north_m[last - 1]);
    CHECK(heading_deg == Approx(azimuth_deg).margin(1e-6));
    CHECK_FALSE(heading_deg == Approx(120.0).margin(1.0));
}

TEST_CASE("means over cells keep straight lines, uneven points or not") {
    Path path;
    for (const double place_m : {0.0, 3.0, 4.0, 40.0, 41.0, 97.0, 100.0}) {
        path.distance_m.push_back(place_m);
        path.east_m.push_back(2.0 * place_m);
        path.north_m.push_back(-place_m);
        path.elevation_m.push_back(7.0 + 0.1 * place_m);
        path.latitude_deg.push_back(1.0);
        path.longitude_deg.push_back(1.0);
    }
    const Path cells = average_cells(path, 6.0);
    REQUIRE(cells.size() == 18);  // 100 / 6 rounded up, and one
    for (std::size_t j = 0; j < cells.size(); ++j) {
        CHECK(cells.east_m[j] == Approx(2.0 * cells.distance_m[j]).margin(1e-9));
        CHECK(cells.elevation_m[j] == Approx(7.0 + 0.1 * cells.distance_m[j]));
    }
}

TEST_CASE("a stop is gathered into one place") {
    std::vector<Spot> spots = draw_straight(500.0, 10.0);
    const std::vector<Spot> stop(200, spots[25]);
    spots.insert(spots.begin() + 25, stop.begin(), stop.end());
    const Path path = roll_out(record(spots, {0.5, 0.0, 1}).points);
    CHECK(path.length_m() > 600.0);
    CHECK(gather_points(path, 4.5).length_m() < 520.0);
}

TEST_CASE("ascent sums rises above the threshold from foot to top") {
    const std::vector<double> heights_m = {0.0, 5.0, 4.5, 9.0, 3.0, 3.5, 3.0, 8.0};
    CHECK(sum_ascent(heights_m, 0.0) == Approx(5.0 + 4.5 + 0.5 + 5.0));
    CHECK(sum_ascent(heights_m, 1.0) == Approx(9.0 + 5.0));
    CHECK(sum_ascent(heights_m, 7.0) == Approx(9.0));
    CHECK(sum_ascent({9.0, 8.0, 2.0}, 0.0) == 0.0);
    CHECK(sum_ascent({}, 1.0) == 0.0);
}

TEST_CASE("a cone is a turning point, a hairpin of 10 m radius is a bend") {
    std::vector<Spot> cone = draw_straight(500.0, 10.0);
    const std::vector<Spot> out = cone;
    cone.insert(cone.end(), out.rbegin() + 1, out.rend());
    const std::vector<std::size_t> turns =
        find_turning_points(roll_out(record(cone, {2.0, 0.0, 2}).points));
    REQUIRE(turns.size() == 1);
    CHECK(turns[0] >= 49);
    CHECK(turns[0] <= 51);
    std::vector<Spot> hairpin;
    for (int i = 0; i <= 50; ++i) {
        hairpin.push_back({10.0 * i, 0.0, 0.0});
    }
    for (int i = 1; i < 8; ++i) {
        const double angle = M_PI * i / 8.0;
        hairpin.push_back(
            {500.0 + 10.0 * std::sin(angle), 10.0 - 10.0 * std::cos(angle), 0.0});
    }
    for (int i = 50; i >= 0; --i) {
        hairpin.push_back({10.0 * i, 20.0, 0.0});
    }
    CHECK(find_turning_points(roll_out(record(hairpin).points)).empty());
}
