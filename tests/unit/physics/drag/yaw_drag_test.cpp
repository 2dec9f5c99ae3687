#include "physics/drag/yaw_drag.h"

#include <cmath>

#include "support/catch.h"

using namespace flattail::physics;

namespace {

constexpr double kDegree = 3.14159265358979323846 / 180.0;

// Drag along the bicycle over a still-air drag area, at one air speed.
double read_balance(const YawDrag& drag, double yaw_rad) {
    return find_yaw_ratio(drag, std::cos(yaw_rad), std::sin(yaw_rad)) * std::cos(yaw_rad);
}

}  // namespace

TEST_CASE("a balance along the bicycle reads the table again, and lines between") {
    const YawDrag drag = make_yaw_drag(
        {{0, 1}, {5 * kDegree, 0.97}, {15 * kDegree, 0.9}, {40 * kDegree, 1.1}});
    CHECK(read_balance(drag, 0.0) == Approx(1.0));
    CHECK(read_balance(drag, 5 * kDegree) == Approx(0.97));
    CHECK(read_balance(drag, -15 * kDegree) == Approx(0.9));
    CHECK(read_balance(drag, 40 * kDegree) == Approx(1.1));
    for (double yaw = 15.0; yaw <= 40.0; yaw += 0.1) {
        const double line = 0.9 + 0.2 * (yaw - 15.0) / 25.0;
        CHECK(std::abs(read_balance(drag, yaw * kDegree) - line) < 3e-4);
    }
}

TEST_CASE("the cosine is a drag area that is the same from all sides") {
    std::vector<YawRow> rows;
    for (double yaw = 0.0; yaw <= 60.0; yaw += 2.0) {
        rows.push_back({yaw * kDegree, std::cos(yaw * kDegree)});
    }
    const YawDrag drag = make_yaw_drag(rows);
    for (const double across : {0.0, 0.3, 1.0, 3.0}) {
        CHECK(find_yaw_ratio(drag, 2.0, across) == Approx(1.0).epsilon(1e-12));
    }
}

TEST_CASE("beyond the last row, and with the air from behind, the ratio stays") {
    const YawDrag drag = make_yaw_drag({{0, 1}, {20 * kDegree, 0.9}});
    const double last = 0.9 / std::cos(20 * kDegree);
    CHECK(find_yaw_ratio(drag, 1.0, 5.0) == Approx(last));
    CHECK(find_yaw_ratio(drag, -1.0, 5.0) == Approx(last));
    CHECK(find_yaw_ratio(YawDrag{}, 1.0, 5.0) == 1.0);
}
