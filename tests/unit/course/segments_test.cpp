#include "course/segments.h"

#include <algorithm>

#include "course/typical_ride.h"
#include "support/catch.h"
#include "unit/course/tracks.h"

using namespace flattail::course;
using namespace flattail::course::test;

namespace {

Course build_mixed_course() {
    std::vector<Spot> spots = draw_hills(20000.0, 10.0, 40.0, 2000.0);
    const Spot corner = spots.back();
    for (int i = 1; i <= 1000; ++i) {
        spots.push_back({corner.east_m + 8.0 * i, corner.north_m - 6.0 * i, 0.0});
    }
    CourseRequest request = request_of(record(spots, {1.0, 0.5, 2}));
    Stretch cobbles;
    cobbles.from_m = 3010.0;
    cobbles.to_m = 3333.0;
    cobbles.surface = Surface::kCobbles;
    cobbles.debris = 2.0;
    Stretch wood;
    wood.from_m = 3200.0;
    wood.to_m = 7777.0;
    wood.shelter = 0.3;
    request.stretches = {cobbles, wood};
    return build_course(request);
}

bool is_cut_at(const std::vector<Segment>& segments, double place_m) {
    return std::any_of(segments.begin(), segments.end(), [&](const Segment& segment) {
        return std::abs(segment.from_m - place_m) < 1e-6;
    });
}

/// Rides the segments with one exact energy step each (mean of both speeds in the drag
/// and power terms), as a coarse scheme would, and gives the time.
double ride_coarsely(const std::vector<Segment>& segments, const TypicalRider& rider,
                     double start_m_s) {
    double v0 = start_m_s;
    double time_s = 0.0;
    for (const Segment& segment : segments) {
        const double force_n =
            rider.mass_kg * 9.80665 *
            (segment.sin_slope +
             rider.crr[static_cast<std::size_t>(index_of(segment.surface))] *
                 segment.cos_slope);
        const double inertia = 2.0 * rider.effective_mass_kg / segment.length_m;
        double low = 0.5 * v0;
        double high = 60.0;
        for (int i = 0; i < 60; ++i) {
            const double u = 0.5 * (low + high);
            const double balance =
                u * (inertia * u * (u - v0) + rider.half_rho_cda_kg_m * u * u + force_n) -
                rider.power_w;
            (balance > 0.0 ? high : low) = u;
        }
        const double v1 = std::min(std::max(2.0 * low - v0, 0.75), segment.cap_m_s);
        time_s += 2.0 * segment.length_m / (v0 + v1);
        v0 = v1;
    }
    return time_s;
}

}  // namespace

TEST_CASE("segments add up to the course in length, height and direction") {
    const Course course = build_mixed_course();
    const std::vector<Segment> segments = split_course(course, TypicalRider{});
    double place_m = 0.0;
    double rise_m = 0.0;
    double east_m = 0.0;
    double wooded_m = 0.0;
    double cobbled_m = 0.0;
    double dirt = 0.0;
    for (const Segment& segment : segments) {
        CHECK(segment.from_m == Approx(place_m).epsilon(1e-12));
        CHECK(segment.length_m > 0.0);
        place_m += segment.length_m;
        rise_m += segment.sin_slope * segment.length_m;
        east_m += segment.head_x / std::sqrt(segment.shelter_sq) * segment.length_m;
        wooded_m += segment.shelter_sq == Approx(0.09) ? segment.length_m : 0.0;
        cobbled_m += segment.surface == Surface::kCobbles ? segment.length_m : 0.0;
        dirt += segment.debris * segment.length_m;
        CHECK(segment.sin_slope * segment.sin_slope +
                  segment.cos_slope * segment.cos_slope ==
              Approx(1.0));
    }
    double course_east_m = 0.0;
    for (const Piece& piece : course.pieces) {
        course_east_m += piece.east * piece.length_m;
    }
    CHECK(place_m == Approx(course.length_m).epsilon(1e-12));
    CHECK(rise_m ==
          Approx(course.nodes.back().elevation_m - course.nodes.front().elevation_m)
              .margin(1e-8));
    CHECK(east_m == Approx(course_east_m).epsilon(1e-9));
    CHECK(wooded_m == Approx(7777.0 - 3200.0).epsilon(1e-9));
    CHECK(cobbled_m == Approx(323.0).epsilon(1e-9));
    CHECK(dirt == Approx(course.length_m + 323.0).epsilon(1e-9));
}

TEST_CASE("no segment crosses a stretch, a mark or the length allowed") {
    const Course course = build_mixed_course();
    SplitOptions options;
    options.max_length_m = 100.0;
    const std::vector<Segment> segments = split_course(course, TypicalRider{}, options);
    for (const double border_m : {3010.0, 3200.0, 3333.0, 7777.0}) {
        CHECK(is_cut_at(segments, border_m));
    }
    for (const Segment& segment : segments) {
        CHECK(segment.length_m <= 100.0 + 1e-9);
    }
    const Marks marks = find_marks(segments, options.mark_spacing_m);
    const double count = static_cast<double>(marks.first_segment.size());
    CHECK(count == std::round(course.length_m / 2000.0));
    for (std::size_t m = 0; m < marks.first_segment.size(); ++m) {
        const Segment& first = segments[static_cast<std::size_t>(marks.first_segment[m])];
        CHECK(first.from_m ==
              Approx(course.length_m * static_cast<double>(m) / count).margin(1e-6));
    }
}

TEST_CASE("smooth road is merged to the longest segments, restless road is not") {
    const Course flat = build_course(request_of(record(draw_straight(50000.0, 10.0))));
    const std::vector<Segment> on_flat = split_course(flat, TypicalRider{});
    // 25 marks of 2 km, each 15.4 lengths of 130 m: 16 segments; the start needs more.
    CHECK(on_flat.size() >= 400);
    CHECK(on_flat.size() <= 412);
    const Course hills =
        build_course(request_of(record(draw_hills(50000.0, 10.0, 30.0, 600.0))));
    CHECK(split_course(hills, TypicalRider{}).size() > on_flat.size() * 3 / 2);
}

TEST_CASE("90 km of ordinary rolling road give 700 to 1000 segments") {
    const Course course = build_course(
        request_of(record(draw_hills(90000.0, 12.0, 25.0, 3000.0), {2.0, 1.0, 1})));
    const std::size_t count = split_course(course, TypicalRider{}).size();
    CHECK(count >= 700);
    CHECK(count <= 1000);
}

TEST_CASE("a braking zone begins and ends at cuts, and its cap is exact at the end") {
    CourseRequest request = request_of(record(draw_straight(5000.0, 10.0)));
    Stretch village;
    village.from_m = 2400.0;
    village.to_m = 2600.0;
    village.speed_cap_m_s = 5.0;
    request.stretches = {village};
    const Course course = build_course(request);
    const std::vector<Segment> segments = split_course(course, TypicalRider{});
    CHECK(is_cut_at(segments, 2400.0));
    CHECK(is_cut_at(segments, 2600.0));
    double braking_m = 0.0;
    double shortest_m = 1e9;
    for (const Segment& segment : segments) {
        const double end_m = segment.from_m + segment.length_m;
        if (end_m <= 2400.0 + 1e-6 && end_m > 2330.0) {
            const double braked = std::sqrt(25.0 + 2.0 * kBrake_m_s2 * (2400.0 - end_m));
            CHECK(segment.cap_m_s == Approx(std::min(braked, kDescentCap_m_s)));
            braking_m += segment.length_m;
            shortest_m = std::min(shortest_m, segment.length_m);
        }
    }
    CHECK(braking_m > 0.0);
    CHECK(shortest_m < 40.0);
}

TEST_CASE("the steps of the typical ride agree with the closed form on a flat road") {
    // At rest with the balance, P = k v^3 + m g Crr v; the far end of a flat road is
    // there.
    const Course course = build_course(request_of(record(draw_straight(20000.0, 20.0))));
    const TypicalRider rider;
    const TypicalRide ride = ride_typically(course, rider);
    const double v = std::sqrt(ride.speed_sq_m2_s2.back());
    const double power_w =
        rider.half_rho_cda_kg_m * v * v * v + rider.mass_kg * 9.80665 * rider.crr[1] * v;
    CHECK(power_w == Approx(rider.power_w).epsilon(1e-6));
}

TEST_CASE("relaxation of a rider without drag at constant speed is P s / (m v^3)") {
    CourseRequest request = request_of(record(draw_straight(2000.0, 20.0)));
    request.limits.descent_cap_m_s = 2.0;
    const Course course = build_course(request);
    TypicalRider rider;
    rider.half_rho_cda_kg_m = 0.0;
    const TypicalRide ride = ride_typically(course, rider);
    // Between nodes the cap does not hold, so only roughly constant.
    const double expected = rider.power_w * course.pieces[50].length_m /
                            (rider.effective_mass_kg * std::pow(2.0, 3));
    CHECK(ride.relaxation[50] < expected);
    CHECK(ride.relaxation[50] > 0.1 * expected);
}

TEST_CASE("one step per segment rides as fast as much finer steps") {
    struct Case {
        double height_m;
        double wave_m;
        double error;
    };
    for (const Case& road : {Case{25.0, 3000.0, 1e-4}, Case{60.0, 5000.0, 1e-4},
                             Case{40.0, 2000.0, 2e-4}, Case{50.0, 2000.0, 2e-4}}) {
        const Course course = build_course(request_of(record(
            draw_hills(30000.0, 12.0, road.height_m, road.wave_m), {2.0, 1.0, 1})));
        const std::vector<Segment> segments = split_course(course, TypicalRider{});
        // Also for riders other than the one that chose the cuts.
        for (const double power_w : {150.0, 200.0, 280.0}) {
            TypicalRider rider;
            rider.power_w = power_w;
            const TypicalRide fine = ride_typically(course, rider);
            const double start_m_s = std::sqrt(fine.speed_sq_m2_s2.front());
            CAPTURE(road.height_m, road.wave_m, power_w, segments.size());
            CHECK(ride_coarsely(segments, rider, start_m_s) ==
                  Approx(fine.time_s).epsilon(road.error));
        }
    }
}

TEST_CASE("stretches and corners are ridden within .05 percent, careless cuts are not") {
    const Course course = build_mixed_course();
    const TypicalRider rider;
    const TypicalRide fine = ride_typically(course, rider);
    const double start_m_s = std::sqrt(fine.speed_sq_m2_s2.front());
    const double coarse_s = ride_coarsely(split_course(course, rider), rider, start_m_s);
    CHECK(coarse_s == Approx(fine.time_s).epsilon(5e-4));
    SplitOptions careless;
    careless.max_length_m = 2000.0;
    careless.max_energy_ratio = careless.max_relaxation = 100.0;
    careless.max_hidden_height = careless.max_turn_rad = 100.0;
    CHECK_FALSE(ride_coarsely(split_course(course, rider, careless), rider, start_m_s) ==
                Approx(fine.time_s).epsilon(5e-4));
}
