// One road over real ground: does noise change what is ridden?
#include <cstdio>
#include <fstream>
#include <random>
#include <string>

#include "course/describe.h"
#include "course/segments.h"
#include "course/typical_ride.h"
#include "support/catch.h"
#include "unit/course/tracks.h"

using namespace flattail::course;
using namespace flattail::course::test;

namespace {

RawTrack read_terrain_track(Noise noise) {
    std::ifstream file(std::string(FLATTAIL_SOURCE_DIR) +
                       "/tests/support/terrain/jacksboro.gpx");
    std::mt19937_64 bits(noise.seed);
    std::normal_distribution<double> normal;
    RawTrack track;
    std::string line;
    while (std::getline(file, line)) {
        RawPoint point;
        if (std::sscanf(line.c_str(), "<trkpt lat=\"%lf\" lon=\"%lf\"><ele>%lf",
                        &point.latitude_deg, &point.longitude_deg,
                        &point.elevation_m) == 3) {
            point.latitude_deg += noise.position_m * normal(bits) / 111000.0;
            point.longitude_deg += noise.position_m * normal(bits) / 89500.0;
            point.elevation_m += noise.height_m * normal(bits);
            track.points.push_back(point);
        }
    }
    return track;
}

}  // namespace

TEST_CASE("a road over real ground is found again under noise") {
    const Course clean = build_course(request_of(read_terrain_track({})));
    REQUIRE(clean.nodes.size() > 4000);
    CHECK(clean.length_m == Approx(57700.0).epsilon(0.003));
    CHECK(clean.ascent_m == Approx(1054.0).epsilon(0.05));
    CHECK(clean.warnings.empty());
    const Course noisy = build_course(request_of(read_terrain_track({2.0, 1.0, 11})));
    CHECK(noisy.length_m == Approx(clean.length_m).epsilon(0.005));
    CHECK(noisy.ascent_m == Approx(clean.ascent_m).epsilon(0.08));
    CHECK(noisy.ascent_raw_m > 1.5 * clean.ascent_m);
    const TypicalRider rider;
    CHECK(ride_typically(noisy, rider).time_s ==
          Approx(ride_typically(clean, rider).time_s).epsilon(0.01));
    const CourseDescription told = describe_course(clean);
    CHECK(told.kilometres.size() == 58);
    CHECK(told.corners.size() > 10);
    const std::size_t count = split_course(clean, rider).size();
    CHECK(count > 700);
    CHECK(count < 1300);
}

TEST_CASE("noise beyond the stated error is reported") {
    const Course noisy = build_course(request_of(read_terrain_track({2.0, 4.0, 11})));
    CHECK(has_problem(noisy.warnings, "the heights scatter"));
    CHECK_FALSE(has_problem(noisy.warnings, "the positions scatter"));
}
