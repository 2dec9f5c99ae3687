#include "findings/indices.h"

#include <array>
#include <cmath>
#include <random>
#include <vector>

#include "support/catch.h"

using namespace flattail::findings;

namespace {

struct Points {
    std::vector<double> a, b;
};

Points draw_points(std::size_t rows, std::size_t columns) {
    std::mt19937_64 random(77);
    std::uniform_real_distribution<double> uniform;
    Points points;
    for (std::size_t i = 0; i < rows * columns; ++i) {
        points.a.push_back(uniform(random));
        points.b.push_back(uniform(random));
    }
    return points;
}

// Null: the index has this value. Bound 4.9 standard errors, false alarm 1e-6.
bool agrees(const Estimate& estimate, double value) {
    return std::fabs(estimate.value - value) <= 4.9 * estimate.standard_error + 1e-12;
}

void ishigami(std::span<const double> points, std::span<double> value) {
    const double pi = std::acos(-1.0);
    for (std::size_t row = 0; row < value.size(); ++row) {
        const auto x = [&](std::size_t c) { return pi * (2 * points[3 * row + c] - 1); };
        value[row] = std::sin(x(0)) + 7 * std::pow(std::sin(x(1)), 2) +
                     .1 * std::pow(x(2), 4) * std::sin(x(0));
    }
}

void g_function(std::span<const double> points, std::span<double> value) {
    const std::array<double, 6> a{0, .5, 3, 9, 99, 99};
    for (std::size_t row = 0; row < value.size(); ++row) {
        value[row] = 1;
        for (std::size_t c = 0; c < 6; ++c)
            value[row] *= (std::fabs(4 * points[6 * row + c] - 2) + a[c]) / (1 + a[c]);
    }
}

}  // namespace

TEST_CASE("Ishigami's function has its known indices") {
    // a = 7, b = .1: closed form in Ishigami & Homma 1990; Saltelli et al. 2008.
    const Points points = draw_points(60000, 3);
    const std::vector<std::vector<std::size_t>> each{{0}, {1}, {2}};
    const SobolIndices found = estimate_indices({points.a, points.b, 3}, each, ishigami);
    const std::array<double, 3> first{.313905191148, .442411144790, 0};
    const std::array<double, 3> total{.557588855210, .442411144790, .243683664062};
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(agrees(found.group[i].first, first[i]));
        CHECK(agrees(found.group[i].total, total[i]));
        CHECK(found.group[i].first.standard_error < .01);
        CHECK(found.group[i].total.standard_error < .01);
    }
    CHECK(found.variance == Approx(13.844587940719).epsilon(.03));
    // Twin: first-order and total indices are not taken for one another.
    CHECK_FALSE(agrees(found.group[0].first, total[0]));
    CHECK_FALSE(agrees(found.group[2].total, first[2]));
}

TEST_CASE("groups of Ishigami's inputs hold their interactions") {
    // x1 and x3 interact with each other alone: together they hold all but x2's share.
    const Points points = draw_points(60000, 3);
    const std::vector<std::vector<std::size_t>> groups{{0, 2}, {1}, {0, 1, 2}};
    const SobolIndices found =
        estimate_indices({points.a, points.b, 3}, groups, ishigami);
    CHECK(agrees(found.group[0].first, 1 - .442411144790));
    CHECK(agrees(found.group[0].total, 1 - .442411144790));
    CHECK(agrees(found.group[2].first, 1));
    CHECK(agrees(found.group[2].total, 1));
}

TEST_CASE("the g-function has its known indices") {
    // Saltelli & Sobol' 1995; a = (0, .5, 3, 9, 99, 99).
    const Points points = draw_points(60000, 6);
    const std::vector<std::vector<std::size_t>> each{{0}, {1}, {2}, {3}};
    const SobolIndices found =
        estimate_indices({points.a, points.b, 6}, each, g_function);
    const std::array<double, 4> first{.58678119, .26079164, .0366738244, .0058678119};
    const std::array<double, 4> total{.690085892, .356173364, .0563335422, .00917057664};
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(agrees(found.group[i].first, first[i]));
        CHECK(agrees(found.group[i].total, total[i]));
    }
    CHECK_FALSE(agrees(found.group[0].first, total[0]));
}

TEST_CASE("adding a constant changes no index") {
    const Points points = draw_points(2000, 3);
    const std::vector<std::vector<std::size_t>> each{{0}};
    const auto shifted = [](std::span<const double> at, std::span<double> value) {
        ishigami(at, value);
        for (double& v : value) v += 9500;
    };
    const auto plain = estimate_indices({points.a, points.b, 3}, each, ishigami);
    const auto moved = estimate_indices({points.a, points.b, 3}, each, shifted);
    CHECK(plain.group[0].first.value == Approx(moved.group[0].first.value).epsilon(1e-9));
    CHECK(plain.group[0].total.value == Approx(moved.group[0].total.value).epsilon(1e-9));
}
