#include "physics/force_balance.h"

#include <array>
#include <cmath>
#include <cstddef>

#include "physics/wind.h"
#include "properties.h"
#include "support/catch.h"

using namespace flattail::physics;
using physics_test::Cases;
using physics_test::kCaseCount;

namespace {

constexpr double kTextbookGravity = 9.81;

Body make_body(double mass_kg, double cda_m2, double crr, double spoke_area_m2 = 0.0) {
    return {mass_kg, cda_m2, crr, spoke_area_m2, .976, kTextbookGravity};
}

RoadAir make_road(double slope_ratio, double density_kg_m3 = 1.225) {
    return {slope_ratio, density_kg_m3, 0.0, 0.0};
}

double ride_time_s(const Body& body, const RoadAir& road, double power_w,
                   double distance_m) {
    return distance_m / solve_steady_speed_m_s(body, road, power_w);
}

struct Fixture1998 {
    Body body{90.0, .2565, .0032, .0044, .97698, kTextbookGravity};
    RoadAir road{.003, 1.2234, 0.0, 0.0};
    RoadTrial trial{471.8 / 56.42, 8.28, 8.45, 56.42, {}};

    Fixture1998() {
        const WindVector wind = compute_wind_vector(2.94, 310 * kPi / 180);
        road.head_wind_m_s = compute_head_wind_m_s(wind, 340 * kPi / 180);
        road.cross_wind_m_s = compute_cross_wind_m_s(wind, 340 * kPi / 180);
    }
};

}  // namespace

TEST_CASE("the five terms of the 1998 road trial come out one by one") {
    // Martin et al. 1998, worked example (inputs from memory), terms computed apart.
    const Fixture1998 given;
    const PowerTerms terms = compute_power_terms(given.body, given.road, given.trial);
    CHECK(terms.aero_w == Approx(158.8).margin(.1));
    CHECK(terms.rolling_w == Approx(23.63).margin(.1));
    CHECK(terms.bearings_w == Approx(1.37).margin(.1));
    CHECK(terms.gravity_w == Approx(22.15).margin(.1));
    CHECK(terms.kinetic_w == Approx(2.30).margin(.1));
    CHECK(terms.sum_w() == Approx(208.25).margin(.1));
    CHECK(compute_pedal_power_w(terms.sum_w(), given.body.efficiency) ==
          Approx(213.2).margin(.1));
}

TEST_CASE("drag along the full air vector counts the cross wind of the 1998 trial") {
    const Fixture1998 given;
    const PowerTerms terms =
        compute_power_terms(given.body, given.road, given.trial, DragForm::kFullVector);
    CHECK(terms.aero_w == Approx(160.2).margin(.1));
}

TEST_CASE("power on a 7.5 percent climb meets the published inputs") {
    // Sports Engineering 2021, doi 10.1007/s12283-021-00345-2, table 1.
    const std::array<double, 3> areas_m2 = {.473, .246, .171};
    const std::array<double, 3> powers_w = {402.5, 371.9, 361.8};
    for (std::size_t i = 0; i < areas_m2.size(); ++i) {
        Body body = make_body(72.0, areas_m2[i], .0032, .0044);
        body.efficiency = .98;
        CHECK(compute_steady_power_w(body, make_road(.075), 6.0) ==
              Approx(powers_w[i]).margin(.2));
    }
}

TEST_CASE("a bicycle 3 kg lighter saves the published times on a 6 percent climb") {
    // Jeukendrup & Martin 2001, Sports Med 31(7):559: 20 km at 6 %.
    const std::array<double, 3> powers_w = {164, 289, 394};
    const std::array<double, 3> saved_s = {218, 112, 75};
    for (std::size_t i = 0; i < powers_w.size(); ++i) {
        const RoadAir climb = make_road(.06, 1.2);
        const double heavy_s =
            ride_time_s(make_body(80, .30, .0032), climb, powers_w[i], 20e3);
        const double light_s =
            ride_time_s(make_body(77, .30, .0032), climb, powers_w[i], 20e3);
        CHECK(heavy_s - light_s == Approx(saved_s[i]).margin(3.0));
    }
}

namespace {

/// Drag area that saves a time at 289 W over 40 flat km against a base drag area.
double fit_drag_area_m2(double base_m2, double saved_s) {
    const RoadAir flat = make_road(0.0, 1.2);
    const double base_s = ride_time_s(make_body(77, base_m2, .0032), flat, 289, 40e3);
    const double speed_m_s = 40e3 / (base_s - saved_s);
    return solve_drag_area_m2(make_body(77, base_m2, .0032), flat, speed_m_s, 289);
}

}  // namespace

TEST_CASE(
    "position changes fitted at one power predict the published times at two others") {
    // Jeukendrup & Martin 2001: from hoods to drops, aero bars, best aero; 164 and 394 W.
    // The absolute drag areas are not given; savings hardly depend on the base.
    struct Row {
        double saved_164_s, saved_289_s, saved_394_s;
    };
    const RoadAir flat = make_road(0.0, 1.2);
    for (const double base_m2 : {.33, .37, .41}) {
        for (const Row& row :
             {Row{226, 186, 167}, Row{409, 336, 299}, Row{561, 462, 414}}) {
            const Body before = make_body(77, base_m2, .0032);
            const Body after =
                make_body(77, fit_drag_area_m2(base_m2, row.saved_289_s), .0032);
            const auto saved_s = [&](double power_w) {
                return ride_time_s(before, flat, power_w, 40e3) -
                       ride_time_s(after, flat, power_w, 40e3);
            };
            CHECK(saved_s(164) == Approx(row.saved_164_s).margin(6.0));
            CHECK(saved_s(394) == Approx(row.saved_394_s).margin(6.0));
        }
    }
}

TEST_CASE("speeds at six powers meet an independent solution of the same balance") {
    const std::array<double, 6> powers_w = {100, 150, 200, 250, 300, 400};
    const std::array<double, 6> upright_km_h = {25.21, 29.75, 33.29, 36.26, 38.82, 43.17};
    const std::array<double, 6> low_km_h = {27.99, 32.84, 36.64, 39.82, 42.58, 47.26};
    for (std::size_t i = 0; i < powers_w.size(); ++i) {
        const RoadAir flat = make_road(0.0);
        CHECK(3.6 * solve_steady_speed_m_s(make_body(85, .32, .005), flat, powers_w[i]) ==
              Approx(upright_km_h[i]).margin(.01));
        CHECK(3.6 * solve_steady_speed_m_s(make_body(80, .25, .004), flat, powers_w[i]) ==
              Approx(low_km_h[i]).margin(.01));
    }
}

TEST_CASE("power grows with speed by the exponents of an independent solution") {
    const std::array<double, 5> slopes = {0, .02, .04, .06, .08};
    const std::array<double, 5> exponents = {2.72, 1.77, 1.32, 1.14, 1.07};
    const Body body = make_body(80, .30, .004, .0044);
    for (std::size_t i = 0; i < slopes.size(); ++i) {
        const RoadAir road = make_road(slopes[i]);
        const double slow = solve_steady_speed_m_s(body, road, 250 * std::exp(-1e-4));
        const double fast = solve_steady_speed_m_s(body, road, 250 * std::exp(1e-4));
        CHECK(2e-4 / std::log(fast / slow) == Approx(exponents[i]).margin(.01));
    }
}

TEST_CASE("rolling equals air drag near 12 km/h for a casual rider") {
    // MacKay, Sustainable Energy without the hot air, appendix A: about 12 km/h.
    const Body body = make_body(90, .75, .005);
    const RoadAir flat = make_road(0.0, 1.3);
    const auto excess_n = [&](double speed_km_h) {
        const Forces forces = compute_forces(body, flat, speed_km_h / 3.6);
        return forces.drag_n - forces.rolling_n;
    };
    CHECK(excess_n(12.0 * .85) < 0.0);
    CHECK(excess_n(12.0 * 1.15) > 0.0);
}

TEST_CASE("a wind from all sides in turn slows by the exact means") {
    // Mean of va abs(va)/v^2: 1 + x^2/2 along the travel; 1.0671 at x = .3 for the
    // vector.
    constexpr double x = .3;
    constexpr int kDirections = 720;
    const Body body = make_body(80, .30, .004);
    const double still_n = compute_forces(body, make_road(0.0), 10.0).drag_n;
    double along = 0.0;
    double vector = 0.0;
    for (int i = 0; i < kDirections; ++i) {
        const WindVector wind = compute_wind_vector(10.0 * x, 2 * kPi * i / kDirections);
        RoadAir road = make_road(0.0);
        road.head_wind_m_s = compute_head_wind_m_s(wind, 0.0);
        road.cross_wind_m_s = compute_cross_wind_m_s(wind, 0.0);
        along += compute_forces(body, road, 10.0, DragForm::kAlongTravel).drag_n;
        vector += compute_forces(body, road, 10.0).drag_n;
    }
    CHECK(along / kDirections / still_n == Approx(1.0 + x * x / 2).epsilon(1e-9));
    CHECK(vector / kDirections / still_n == Approx(1.0671).margin(5e-5));
}

TEST_CASE("the race-day question: what 12 W are worth over 90 km") {
    // Trade: two tubes worth 5 to 7 W each in independent tests. As a constant 12 W, and
    // as the change of rolling coefficient those watts stand for at 12.5 m/s and 85 kg.
    const std::array<double, 3> powers_w = {150, 200, 250};
    const std::array<double, 3> as_watts_s = {290, 195, 141};
    const std::array<double, 3> as_crr_s = {220, 163, 129};
    Body body = make_body(85, .28, .0035);
    body.efficiency = .97;
    Body faster = body;
    faster.crr -= .00115;
    const RoadAir flat = make_road(0.0, 1.2);
    for (std::size_t i = 0; i < powers_w.size(); ++i) {
        const double before_s = ride_time_s(body, flat, powers_w[i], 90e3);
        CHECK(before_s - ride_time_s(body, flat, powers_w[i] + 12, 90e3) ==
              Approx(as_watts_s[i]).epsilon(.05));
        CHECK(before_s - ride_time_s(faster, flat, powers_w[i], 90e3) ==
              Approx(as_crr_s[i]).epsilon(.05));
    }
}

TEST_CASE("riding on, any start settles at the steady speed") {
    const Body body = make_body(85, .32, .005);
    for (const double slope_ratio : {-.03, 0.0, .05}) {
        const RoadAir road{slope_ratio, 1.2, 1.5, 2.0};
        const double steady_m_s = solve_steady_speed_m_s(body, road, 200);
        for (const double start_m_s : {2.0, 18.0}) {
            double speed_m_s = start_m_s;
            for (int step = 0; step < 4000; ++step) {  // midpoint rule, .25 s
                const double half_m_s =
                    speed_m_s +
                    .125 * compute_acceleration_m_s2(body, road, speed_m_s, 200);
                speed_m_s += .25 * compute_acceleration_m_s2(body, road, half_m_s, 200);
            }
            CHECK(speed_m_s == Approx(steady_m_s).epsilon(1e-6));
        }
    }
}

TEST_CASE("spinning wheels act as 1.45 kg") {
    // Martin et al. 1998: I/r^2 = .14/.311^2 (inputs from memory).
    CHECK(compute_effective_mass_kg(90.0) - 90.0 == Approx(1.447).margin(.001));
}

TEST_CASE("on a descent without power the coasting speed balances weight and air") {
    const Body body = make_body(85, .30, .004);
    const double speed_m_s = solve_steady_speed_m_s(body, make_road(-.05), 0.0);
    CHECK(speed_m_s > 10.0);
    CHECK(compute_forces(body, make_road(-.05), speed_m_s).sum_n() ==
          Approx(0.0).margin(1e-9));
    CHECK(solve_steady_speed_m_s(body, make_road(.01), 0.0) == 0.0);
}

namespace {

struct Draw {
    Body body;
    RoadAir road;
    double power_w;
};

Draw draw_case(Cases& cases) {
    return {{cases.between(55, 110), cases.between(.18, .45), cases.between(.002, .012),
             cases.between(0, .005), .976, 9.80665},
            {cases.between(-.1, .15), cases.between(1.0, 1.3), cases.between(-12, 12),
             cases.between(-10, 10)},
            cases.between(10, 500)};
}

}  // namespace

TEST_CASE("the solved speed takes the power it was solved for") {
    Cases cases(51);
    for (int i = 0; i < kCaseCount; ++i) {
        const Draw at = draw_case(cases);
        for (const DragForm form : {DragForm::kAlongTravel, DragForm::kFullVector}) {
            const double speed_m_s =
                solve_steady_speed_m_s(at.body, at.road, at.power_w, form);
            CHECK(compute_steady_power_w(at.body, at.road, speed_m_s, form) ==
                  Approx(at.power_w).epsilon(1e-8));
        }
    }
}

TEST_CASE("no steady speed lies above the solved one") {
    Cases cases(52);
    for (int i = 0; i < kCaseCount; ++i) {
        const Draw at = draw_case(cases);
        const double speed_m_s = solve_steady_speed_m_s(at.body, at.road, at.power_w);
        for (double above = 1.001; above < 20.0; above *= 1.3) {
            CHECK(compute_steady_power_w(at.body, at.road, speed_m_s * above) >
                  at.power_w);
        }
    }
}

TEST_CASE("more of what slows never rides faster") {
    Cases cases(53);
    for (int i = 0; i < kCaseCount; ++i) {
        Draw at = draw_case(cases);
        const double speed_m_s = solve_steady_speed_m_s(at.body, at.road, at.power_w);
        Draw more = at;
        more.body.crr += .0005;
        CHECK(solve_steady_speed_m_s(more.body, more.road, more.power_w) < speed_m_s);
        more = at;
        more.road.head_wind_m_s += .5;
        CHECK(solve_steady_speed_m_s(more.body, more.road, more.power_w) < speed_m_s);
        more = at;
        more.road.slope_ratio += .005;
        CHECK(solve_steady_speed_m_s(more.body, more.road, more.power_w) < speed_m_s);
        more = at;
        more.power_w += 5.0;
        CHECK(solve_steady_speed_m_s(more.body, more.road, more.power_w) > speed_m_s);
    }
}

TEST_CASE("a heavier rider is never faster uphill, and never slower on a steep descent") {
    Cases cases(54);
    for (int i = 0; i < kCaseCount; ++i) {
        Draw at = draw_case(cases);
        Draw heavy = at;
        heavy.body.mass_kg += 2.0;
        at.road.slope_ratio = heavy.road.slope_ratio = cases.between(0, .15);
        CHECK(solve_steady_speed_m_s(heavy.body, heavy.road, heavy.power_w) <
              solve_steady_speed_m_s(at.body, at.road, at.power_w));
        at.road.slope_ratio = heavy.road.slope_ratio = cases.between(-.1, -.02);
        CHECK(solve_steady_speed_m_s(heavy.body, heavy.road, heavy.power_w) >
              solve_steady_speed_m_s(at.body, at.road, at.power_w));
    }
}

TEST_CASE("a cross wind slows the ride's form and leaves the paper's form alone") {
    Cases cases(55);
    for (int i = 0; i < kCaseCount; ++i) {
        Draw at = draw_case(cases);
        at.road.head_wind_m_s = cases.between(0, 8);
        Draw still = at;
        still.road.cross_wind_m_s = 0.0;
        CHECK(solve_steady_speed_m_s(at.body, at.road, at.power_w) <
              solve_steady_speed_m_s(still.body, still.road, still.power_w));
        CHECK(solve_steady_speed_m_s(at.body, at.road, at.power_w,
                                     DragForm::kAlongTravel) ==
              solve_steady_speed_m_s(still.body, still.road, still.power_w,
                                     DragForm::kAlongTravel));
    }
}

TEST_CASE("the drag area found from a speed gives that speed back") {
    Cases cases(56);
    for (int i = 0; i < kCaseCount; ++i) {
        Draw at = draw_case(cases);
        at.road.head_wind_m_s = cases.between(0, 8);
        const double speed_m_s = solve_steady_speed_m_s(at.body, at.road, at.power_w);
        CHECK(solve_drag_area_m2(at.body, at.road, speed_m_s, at.power_w) ==
              Approx(at.body.cda_m2).epsilon(1e-6));
    }
}
