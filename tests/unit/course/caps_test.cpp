#include "course/caps.h"

#include "support/catch.h"
#include "unit/course/tracks.h"

using namespace flattail::course;
using namespace flattail::course::test;

TEST_CASE("a corner's speed is that of v squared = a r") {
    // Uniform circular motion: 36 km/h on a radius of 25 m needs 4 m/s^2.
    CHECK(limit_corner_speed(1.0 / 25.0, 4.0) == Approx(10.0));
    CHECK(limit_corner_speed(-1.0 / 25.0, 4.0) == Approx(10.0));
    CHECK(limit_corner_speed(0.0, 4.0) == kUncapped_m_s);
    CHECK(limit_corner_speed(100.0, 4.0) == Approx(std::sqrt(4.0 * kTightestRadius_m)));
}

TEST_CASE("braking before a cap follows v0 squared = v1 squared + 2 b s") {
    std::vector<Node> nodes(101);
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        nodes[i].distance_m = 2.0 * static_cast<double>(i);
        nodes[i].cap_m_s = 20.0;
    }
    nodes[80].cap_m_s = 5.0;
    brake_ahead(nodes, 3.0);
    const double zone_m = (400.0 - 25.0) / 6.0;  // 62.5 m of braking
    for (std::size_t i = 0; i <= 80; ++i) {
        const double before_m = 160.0 - nodes[i].distance_m;
        const double expected =
            before_m < zone_m ? std::sqrt(25.0 + 2.0 * 3.0 * before_m) : 20.0;
        CHECK(nodes[i].cap_m_s == Approx(expected));
    }
    CHECK(nodes[81].cap_m_s == 20.0);
}

TEST_CASE("a stretch's speed limit holds from its first to its last metre") {
    CourseRequest request = request_of(record(draw_straight(5000.0, 10.0)));
    Stretch village;
    village.from_m = 2000.0;
    village.to_m = 2500.0;
    village.speed_cap_m_s = 8.0;
    request.stretches = {village};
    const Course course = build_course(request);
    for (const Node& node : course.nodes) {
        const double before_m = std::max(0.0, 2000.0 - node.distance_m);
        const double braked = std::sqrt(64.0 + 2.0 * kBrake_m_s2 * before_m);
        const double expected = node.distance_m > 2500.0
                                    ? kDescentCap_m_s
                                    : std::min(braked, kDescentCap_m_s);
        CHECK(node.cap_m_s == Approx(expected).epsilon(1e-9));
    }
}
