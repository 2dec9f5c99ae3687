#include "course/course.h"

#include <algorithm>

#include "support/catch.h"
#include "unit/course/tracks.h"

using namespace flattail;
using namespace flattail::course;
using namespace flattail::course::test;

namespace {

double find_lowest_corner_cap(const Course& course) {
    double lowest = kUncapped_m_s;
    for (const Node& node : course.nodes) {
        lowest = std::min(lowest, node.corner_cap_m_s);
    }
    return lowest;
}

double sum_lengths(const Course& course) {
    double sum_m = 0.0;
    for (const Piece& piece : course.pieces) {
        sum_m += piece.length_m;
    }
    return sum_m;
}

std::vector<Problem> catch_problems(const CourseRequest& request) {
    try {
        build_course(request);
    } catch (const InvalidInput& refused) {
        return refused.problems();
    }
    return {};
}

}  // namespace

TEST_CASE(
    "a straight road with 2 m noise has no corner and its length within .1 percent") {
    // The claim is about any recording, so spacings, errors stated and draws vary. Noise
    // of 2 m each metre adds 200 % to the raw length.
    for (const double step_m : {1.0, 3.0, 10.0, 25.0}) {
        for (const double stated_m : {2.0, 3.0}) {
            for (unsigned seed = 1; seed <= 4; ++seed) {
                CourseRequest request =
                    request_of(record(draw_straight(10000.0, step_m), {2.0, 0.0, seed}));
                request.position_error_m = stated_m;
                const Course course = build_course(request);
                CAPTURE(step_m, stated_m, seed, course.plan_cutoff_m,
                        course.raw_length_m);
                CHECK(course.length_m == Approx(10000.0).epsilon(1e-3));
                CHECK(find_lowest_corner_cap(course) > kDescentCap_m_s);
            }
        }
    }
}

TEST_CASE("a road without smoothing would fail the claim about the straight road") {
    const Course course =
        build_course(request_of(record(draw_straight(10000.0, 10.0), {2.0, 0.0, 1})));
    CHECK_FALSE(course.raw_length_m == Approx(10000.0).epsilon(1e-3));
}

TEST_CASE("a circle has the curvature of its radius and the cap of v^2 = a r") {
    for (const double radius_m : {40.0, 60.0, 200.0}) {
        const Course course =
            build_course(request_of(record(draw_circle(radius_m, 5.0))));
        const Node& middle = course.nodes[course.nodes.size() / 2];
        CAPTURE(radius_m, course.plan_cutoff_m);
        CHECK(middle.curvature_per_m == Approx(1.0 / radius_m).epsilon(0.03));
        CHECK(middle.corner_cap_m_s ==
              Approx(std::sqrt(kLateralLimit_m_s2 * radius_m)).epsilon(0.02));
        CHECK(course.length_m == Approx(2.0 * M_PI * radius_m).epsilon(0.03));
    }
}

TEST_CASE("a noisy circle keeps its corner cap") {
    const Course course =
        build_course(request_of(record(draw_circle(60.0, 5.0), {2.0, 1.0, 3})));
    const Node& middle = course.nodes[course.nodes.size() / 2];
    CHECK(middle.corner_cap_m_s ==
          Approx(std::sqrt(kLateralLimit_m_s2 * 60.0)).epsilon(0.15));
}

TEST_CASE("sine hills keep their ascent") {
    // 10 waves of 40 m: 400 m up, whatever lies between foot and top.
    const Course clean =
        build_course(request_of(record(draw_hills(20000.0, 10.0, 40.0, 2000.0))));
    CHECK(clean.ascent_m == Approx(400.0).epsilon(0.002));
    CHECK(clean.ascent_raw_m == Approx(400.0).epsilon(0.001));
    const Course noisy = build_course(
        request_of(record(draw_hills(20000.0, 10.0, 40.0, 2000.0), {2.0, 1.5, 5})));
    CHECK(noisy.ascent_m == Approx(400.0).epsilon(0.03));
    CHECK(noisy.ascent_raw_m > 1000.0);
}

TEST_CASE("a noisy flat road has hardly any ascent") {
    for (const double step_m : {3.0, 10.0, 25.0}) {
        for (unsigned seed = 1; seed <= 3; ++seed) {
            const Course course = build_course(
                request_of(record(draw_straight(20000.0, step_m), {2.0, 1.5, seed})));
            CAPTURE(step_m, seed, course.height_cutoff_m);
            CHECK(course.ascent_raw_m > 500.0);
            CHECK(course.ascent_m < 0.1 * course.ascent_raw_m);
            double steepest = 0.0;
            for (const Piece& piece : course.pieces) {
                steepest = std::max(steepest, std::abs(piece.sin_slope));
            }
            CHECK(steepest < 0.035);
        }
    }
}

TEST_CASE("heights rounded to whole metres do not become steps") {
    std::vector<Spot> spots = draw_straight(10000.0, 10.0);
    for (std::size_t i = 0; i < spots.size(); ++i) {
        spots[i].height_m = std::round(0.01 * 10.0 * static_cast<double>(i));
    }
    const Course course = build_course(request_of(record(spots)));
    for (const Piece& piece : course.pieces) {
        CHECK(piece.sin_slope == Approx(0.01).margin(0.006));
    }
}

TEST_CASE("the turn of an out-and-back road costs it neither length nor slope") {
    // 3 km up at 5 % and back: a line bent around the turn would be shorter and steeper.
    std::vector<Spot> spots = draw_straight(3000.0, 10.0);
    for (std::size_t i = 0; i < spots.size(); ++i) {
        spots[i].height_m = 0.5 * static_cast<double>(i);
    }
    const std::vector<Spot> out = spots;
    spots.insert(spots.end(), out.rbegin() + 1, out.rend());
    for (const double noise_m : {0.0, 2.0}) {
        const Course course =
            build_course(request_of(record(spots, {noise_m, 0.5 * noise_m, 3})));
        CAPTURE(noise_m, course.plan_cutoff_m);
        CHECK(course.length_m ==
              Approx(6000.0 * std::hypot(1.0, 0.05)).margin(noise_m > 0.0 ? 12.0 : 4.0));
        for (const Piece& piece : course.pieces) {
            CHECK(std::abs(piece.sin_slope) < (noise_m > 0.0 ? 0.08 : 0.055));
        }
    }
}

TEST_CASE("an out-and-back road has mirrored slopes and opposite headings") {
    std::vector<Spot> spots = draw_hills(5000.0, 10.0, 30.0, 2500.0);
    const std::vector<Spot> out = spots;
    spots.insert(spots.end(), out.rbegin() + 1, out.rend());
    const Course course = build_course(request_of(record(spots)));
    CHECK(course.length_m == Approx(10000.0).epsilon(0.002));
    double east_m = 0.0;
    double north_m = 0.0;
    const std::size_t count = course.pieces.size();
    for (std::size_t i = 0; i < count; ++i) {
        east_m += course.pieces[i].east * course.pieces[i].length_m;
        north_m += course.pieces[i].north * course.pieces[i].length_m;
        CHECK(course.pieces[i].sin_slope ==
              Approx(-course.pieces[count - 1 - i].sin_slope).margin(1e-4));
    }
    CHECK(std::hypot(east_m, north_m) < 20.0);
    CHECK(course.warnings.empty());
    // The turn around the cone is the one corner.
    CHECK(find_lowest_corner_cap(course) < 6.0);
}

TEST_CASE("the length is the official distance when that is given") {
    CourseRequest request =
        request_of(record(draw_hills(20000.0, 10.0, 40.0, 2000.0), {2.0, 1.5, 9}));
    request.official_distance_m = 20123.0;
    const Course course = build_course(request);
    CHECK(course.length_m == 20123.0);
    CHECK(course.nodes.back().distance_m == 20123.0);
    CHECK(sum_lengths(course) == Approx(20123.0).epsilon(1e-12));
    double rise_m = 0.0;
    for (const Piece& piece : course.pieces) {
        rise_m += piece.sin_slope * piece.length_m;
    }
    CHECK(rise_m ==
          Approx(course.nodes.back().elevation_m - course.nodes.front().elevation_m)
              .margin(1e-9));
}

TEST_CASE("an official distance far from the file is doubted, then refused") {
    CourseRequest request = request_of(record(draw_straight(10000.0, 10.0)));
    request.official_distance_m = 10500.0;
    CHECK(has_problem(build_course(request).warnings, "official distance"));
    request.official_distance_m = 20000.0;
    CHECK(has_problem(catch_problems(request), "official distance"));
}

TEST_CASE("a profile without directions is one loop with every heading") {
    RawProfile profile;
    for (int i = 0; i <= 400; ++i) {
        profile.distance_m.push_back(50.0 * i);
        profile.elevation_m.push_back(20.0 * std::sin(2.0 * M_PI * i / 40.0));
    }
    CourseRequest request;
    request.source = profile;
    const Course course = build_course(request);
    CHECK(course.length_m == Approx(20000.0).epsilon(1e-9));
    CHECK(course.ascent_m == Approx(400.0).epsilon(0.005));
    CHECK(course.headings == Headings::kAssumedLoop);
    CHECK(find_lowest_corner_cap(course) == kUncapped_m_s);
    CHECK(has_problem(course.warnings, "no directions"));
}

TEST_CASE("a sketch meets its distance, climb and laps, and favours no wind") {
    for (const int laps : {1, 3}) {
        CourseRequest request;
        request.source = RawSketch{90000.0, 800.0, laps};
        const Course course = build_course(request);
        CHECK(course.length_m == 90000.0);
        CHECK(course.ascent_m == Approx(800.0).epsilon(0.001));
        double ee = 0.0;
        double en = 0.0;
        double nn = 0.0;
        for (const Piece& piece : course.pieces) {
            ee += piece.east * piece.east * piece.length_m;
            en += piece.east * piece.north * piece.length_m;
            nn += piece.north * piece.north * piece.length_m;
            CHECK(std::abs(piece.sin_slope) < 0.05);
        }
        CHECK(ee == Approx(nn).epsilon(0.002));
        CHECK(std::abs(en) < 100.0);
    }
    CourseRequest flat;
    flat.source = RawSketch{40000.0, 0.0, 2};
    CHECK(build_course(flat).ascent_m == 0.0);
}

TEST_CASE("a stretch changes the road exactly between its ends") {
    CourseRequest request = request_of(record(draw_straight(10000.0, 10.0)));
    Stretch wood;
    wood.from_m = 1234.5;
    wood.to_m = 3456.7;
    wood.surface = Surface::kCoarse;
    wood.shelter = 0.3;
    Stretch bridge;
    bridge.from_m = 3000.0;
    bridge.to_m = 4000.0;
    bridge.shelter = 1.0;
    bridge.debris = 4.0;
    request.stretches = {wood, bridge};
    const Course course = build_course(request);
    double coarse_m = 0.0;
    double wooded_m = 0.0;
    double dirty_m = 0.0;
    for (const Piece& piece : course.pieces) {
        coarse_m += piece.surface == Surface::kCoarse ? piece.length_m : 0.0;
        wooded_m += piece.shelter == 0.3 ? piece.length_m : 0.0;
        dirty_m += piece.debris == 4.0 ? piece.length_m : 0.0;
    }
    CHECK(coarse_m == Approx(3456.7 - 1234.5).epsilon(1e-9));
    CHECK(wooded_m == Approx(3000.0 - 1234.5).epsilon(1e-9));
    CHECK(dirty_m == Approx(1000.0).epsilon(1e-9));
}

TEST_CASE("every wrong stretch is named at once, with its line") {
    CourseRequest request = request_of(record(draw_straight(10000.0, 10.0)));
    Stretch late;
    late.from_m = 9000.0;
    late.to_m = 12000.0;
    late.line = 3;
    Stretch windy;
    windy.to_m = 500.0;
    windy.shelter = 2.0;
    windy.line = 5;
    request.stretches = {late, windy};
    const std::vector<Problem> problems = catch_problems(request);
    REQUIRE(problems.size() == 2);
    CHECK(problems[0].place.file == "stretches.csv");
    CHECK(problems[0].place.line == 3);
    CHECK(problems[1].place.line == 5);
}

TEST_CASE("courses that are none are refused with a reason") {
    RawTrack two = record(draw_straight(1000.0, 1000.0));
    REQUIRE(two.points.size() == 2);
    CHECK(has_problem(catch_problems(request_of(two)), "at least 3 different points"));
    CHECK(has_problem(catch_problems(request_of(RawTrack{})), "has 0"));
    const RawTrack still = record(std::vector<Spot>(50, Spot{0.0, 0.0, 10.0}));
    CHECK(has_problem(catch_problems(request_of(still)), "has 1"));
    CHECK(has_problem(catch_problems(request_of(record(draw_straight(50.0, 5.0)))),
                      "m long"));
    RawTrack off = record(draw_straight(1000.0, 10.0));
    off.points[7].latitude_deg = 95.0;
    CHECK(has_problem(catch_problems(request_of(off)), "not on the globe"));
    CourseRequest falling;
    falling.source = RawProfile{{0.0, 500.0, 400.0, 900.0}, {1.0, 1.0, 1.0, 1.0}};
    CHECK(has_problem(catch_problems(falling), "distance falls"));
    CourseRequest steep;
    steep.source = RawSketch{10000.0, 5000.0, 1};
    CHECK(has_problem(catch_problems(steep), "not possible"));
}

TEST_CASE("a road across the date line keeps its length and its longitudes") {
    RawTrack track = record(draw_straight(10000.0, 10.0));
    for (RawPoint& point : track.points) {
        point.longitude_deg = std::remainder(point.longitude_deg + 171.96, 360.0);
    }
    const Course course = build_course(request_of(track));
    CHECK(course.length_m == Approx(10000.0).epsilon(1e-4));
    for (const Node& node : course.nodes) {
        CHECK(std::abs(node.longitude_deg) > 179.0);
    }
}
