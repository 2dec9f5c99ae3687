#include "physics/wind.h"

#include <cmath>
#include <string>
#include <utility>

#include "physics/constants.h"
#include "properties.h"
#include "support/catch.h"

using namespace flattail::physics;
using physics_test::Cases;
using physics_test::kCaseCount;

TEST_CASE("wind at 1 m meets the log law over every kind of country") {
    // Roughness classes of wind statistics; ratios ln(1/z0)/ln(10/z0) computed apart.
    for (const auto& [terrain, ratio] : {std::pair{Terrain::kSea, .787},
                                         {Terrain::kMudOrSnow, .697},
                                         {Terrain::kGrass, .604},
                                         {Terrain::kLowCrops, .500},
                                         {Terrain::kHighCrops, .376},
                                         {Terrain::kParkland, .231}}) {
        CHECK(compute_log_law_ratio(1.0, find_roughness_length_m(terrain)) ==
              Approx(ratio).margin(1e-3));
    }
    CHECK(compute_log_law_ratio(10.0, .03) == 1.0);
}

TEST_CASE("no wind is left at and below the roughness length") {
    CHECK(compute_log_law_ratio(.5, .5) == 0.0);
    CHECK(compute_log_law_ratio(.1, .5) == 0.0);
    CHECK(compute_log_law_ratio(0.0, .03) == 0.0);
    CHECK(compute_log_law_ratio(.501, .5) > 0.0);
}

TEST_CASE("compass words are sixteenths of a turn from north") {
    CHECK(find_compass_bearing_rad("N").value() == 0.0);
    CHECK(find_compass_bearing_rad("E").value() == Approx(kPi / 2));
    CHECK(find_compass_bearing_rad("wsw").value() == Approx(247.5 * kPi / 180));
    CHECK(find_compass_bearing_rad("NNW").value() == Approx(337.5 * kPi / 180));
    for (const char* word : {"", "X", "NN", "WSWW", "north"}) {
        CHECK_FALSE(find_compass_bearing_rad(word).has_value());
    }
}

TEST_CASE("a wind from the west moves air to the east") {
    const WindVector wind =
        compute_wind_vector(5.0, find_compass_bearing_rad("W").value());
    CHECK(wind.east_m_s == Approx(5.0));
    CHECK(wind.north_m_s == Approx(0.0).epsilon(0).margin(1e-12));
    const double north = 0.0;
    const double west = 1.5 * kPi;
    CHECK(compute_head_wind_m_s(wind, west) == Approx(5.0));
    CHECK(compute_head_wind_m_s(wind, kPi / 2) == Approx(-5.0));
    CHECK(compute_head_wind_m_s(wind, north) == Approx(0.0).epsilon(0).margin(1e-12));
    CHECK(compute_cross_wind_m_s(wind, north) ==
          Approx(5.0));  // from the left, to the right
}

TEST_CASE("the wind of the 1998 road trial splits as published") {
    // Martin et al. 1998 (inputs from memory): 2.94 m/s from 310 on a heading of 340
    // degrees; air speed 10.908 m/s, yaw 7.67 degrees.
    const WindVector wind = compute_wind_vector(2.94, 310 * kPi / 180);
    const double heading = 340 * kPi / 180;
    const double head_m_s = compute_head_wind_m_s(wind, heading);
    const double cross_m_s = compute_cross_wind_m_s(wind, heading);
    const double speed_m_s = 471.8 / 56.42;
    CHECK(speed_m_s + head_m_s == Approx(10.908).margin(1e-3));
    CHECK(compute_yaw_rad(speed_m_s, head_m_s, cross_m_s) * 180 / kPi ==
          Approx(7.67).margin(.01));
}

TEST_CASE("head and cross wind keep the length of the wind and turn with the rider") {
    Cases cases(31);
    for (int i = 0; i < kCaseCount; ++i) {
        const double speed_m_s = cases.between(0, 20);
        const double from = cases.between(0, 2 * kPi);
        const double heading = cases.between(0, 2 * kPi);
        const double turn = cases.between(-kPi, kPi);
        const WindVector wind = compute_wind_vector(speed_m_s, from);
        const WindVector turned = compute_wind_vector(speed_m_s, from + turn);
        const double head = compute_head_wind_m_s(wind, heading);
        const double cross = compute_cross_wind_m_s(wind, heading);
        CHECK(std::hypot(head, cross) == Approx(speed_m_s).epsilon(0).margin(1e-12));
        CHECK(compute_head_wind_m_s(turned, heading + turn) ==
              Approx(head).epsilon(0).margin(1e-12));
        CHECK(compute_cross_wind_m_s(turned, heading + turn) ==
              Approx(cross).epsilon(0).margin(1e-12));
    }
}
