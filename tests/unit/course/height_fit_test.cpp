#include "course/height_fit.h"

#include <cmath>

#include "support/catch.h"

using namespace flattail::course;

namespace {

/// A road whose height is c s^2 / 2, with nodes every metre.
Course build_parabola(double length_m, double curvature_per_m) {
    Course course;
    course.length_m = length_m;
    for (int i = 0; i <= static_cast<int>(length_m); ++i) {
        Node node;
        node.distance_m = i;
        node.elevation_m = 0.5 * curvature_per_m * i * i;
        course.nodes.push_back(node);
    }
    return course;
}

std::vector<double> space_evenly(double length_m, int count) {
    std::vector<double> borders_m;
    for (int k = 0; k <= count; ++k) {
        borders_m.push_back(length_m * k / count);
    }
    return borders_m;
}

}  // namespace

TEST_CASE("a road of even slope keeps its heights at every border") {
    Course course = build_parabola(3000.0, 0.0);
    for (Node& node : course.nodes) {
        node.elevation_m = 12.0 + 0.04 * node.distance_m;
    }
    const std::vector<double> borders_m = {0.0, 130.5, 260.25, 900.0, 2999.5, 3000.0};
    const std::vector<double> heights_m = fit_heights(course, borders_m);
    for (std::size_t k = 0; k < borders_m.size(); ++k) {
        CHECK(heights_m[k] == Approx(12.0 + 0.04 * borders_m[k]));
    }
}

TEST_CASE("the best line of a parabola lies c L^2 / 12 off the road at its borders") {
    // Known closed form: the least-squares line over one cell errs by c L^2 (1/12, -1/24,
    // 1/12) at its ends and middle; far from the fixed ends neighbours share that.
    const double curvature_per_m = 2e-4;
    const Course course = build_parabola(6000.0, curvature_per_m);
    const std::vector<double> borders_m = space_evenly(6000.0, 60);
    const std::vector<double> heights_m = fit_heights(course, borders_m);
    const double off_m = curvature_per_m * 100.0 * 100.0 / 12.0;
    for (std::size_t k = 15; k <= 45; ++k) {
        const double own_m = 0.5 * curvature_per_m * borders_m[k] * borders_m[k];
        CHECK(heights_m[k] == Approx(own_m - off_m).margin(1e-4));
    }
    CHECK(heights_m.front() == course.nodes.front().elevation_m);
    CHECK(heights_m.back() == course.nodes.back().elevation_m);
}

TEST_CASE("two borders leave the road's own ends") {
    const Course course = build_parabola(500.0, 1e-3);
    const std::vector<double> heights_m = fit_heights(course, {0.0, 500.0});
    CHECK(heights_m[0] == 0.0);
    CHECK(heights_m[1] == Approx(125.0));
}
