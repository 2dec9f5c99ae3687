#include "course/describe.h"

#include "support/catch.h"
#include "unit/course/tracks.h"

using namespace flattail::course;
using namespace flattail::course::test;

namespace {

/// 3 km flat to the east, a right angle, 2 km up at 5 %, 4 km down at 2.5 % to the north.
Course build_angle() {
    std::vector<Spot> spots;
    for (int i = 0; i <= 300; ++i) {
        spots.push_back({10.0 * i, 0.0, 50.0});
    }
    for (int i = 1; i <= 600; ++i) {
        const double up_m = 0.5 * std::min(i, 200);
        const double down_m = 0.25 * std::max(0, i - 200);
        spots.push_back({3000.0, 10.0 * i, 50.0 + up_m - down_m});
    }
    CourseRequest request = request_of(record(spots));
    Stretch rough;
    rough.from_m = 1000.0;
    rough.to_m = 1800.0;
    rough.surface = Surface::kCoarse;
    request.stretches = {rough};
    return build_course(request);
}

}  // namespace

TEST_CASE("a description finds the climb, the descent, the corner and the surfaces") {
    const Course course = build_angle();
    const CourseDescription told = describe_course(course);
    CHECK(told.length_m == Approx(9000.0).epsilon(0.002));
    CHECK(told.ascent_m == Approx(100.0).margin(2.0));
    CHECK(told.steepest_km.drop_m == Approx(-50.0).margin(0.5));
    CHECK(told.steepest_km.from_m > 2900.0);
    CHECK(told.steepest_km.to_m < 5100.0);
    CHECK(told.longest_descent.drop_m == Approx(100.0).margin(2.0));
    CHECK(told.longest_descent.to_m - told.longest_descent.from_m ==
          Approx(4000.0).margin(100.0));
    REQUIRE(told.corners.size() == 1);
    CHECK(told.corners[0].from_m == Approx(3000.0).margin(60.0));
    CHECK(told.corners[0].lowest_cap_m_s < 9.0);
    REQUIRE(told.braking_zones.size() == 1);
    CHECK(told.braking_zones[0].to_m <= 3000.0);
    CHECK(told.surface_m[2] == Approx(800.0).epsilon(1e-9));
    CHECK(told.surface_m[1] == Approx(course.length_m - 800.0).epsilon(1e-9));
}

TEST_CASE("the rows of a description cover the course and say what is in them") {
    const Course course = build_angle();
    const std::vector<KilometreRow> rows = describe_course(course).kilometres;
    REQUIRE(rows.size() == 9);
    CHECK(rows.front().from_m == 0.0);
    CHECK(rows.back().to_m == Approx(course.length_m));
    int corners = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        CHECK((i == 0 || rows[i].from_m == rows[i - 1].to_m));
        corners += rows[i].corners;
    }
    CHECK(corners == 1);
    CHECK(rows[0].heading_deg == Approx(90.0).margin(0.5));
    CHECK(rows[8].heading_deg == Approx(0.0).margin(0.5));
    CHECK(rows[1].surface == Surface::kCoarse);
    CHECK(rows[4].mean_slope == Approx(0.05).margin(0.005));
    CHECK(rows[4].ascent_m == Approx(50.0).margin(3.0));
    CHECK(rows[7].descent_m == Approx(25.0).margin(1.0));
    CHECK(rows[7].steepest_slope == Approx(-0.025).margin(0.001));
}
