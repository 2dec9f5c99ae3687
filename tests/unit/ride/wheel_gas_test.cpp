// Pressure from the pump to the finish, against the closed forms followed lane by lane.
#include "ride/wheel_gas.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "chance/make_distribution.h"
#include "physics/inflation.h"
#include "ride/setup_lanes.h"
#include "scenario/leak.h"
#include "support/catch.h"
#include "support/model_builder.h"
#include "support/prepared_ride.h"

using namespace flattail;

namespace {

constexpr double kPsi_pa = 6894.757293168;
constexpr double kHour_s = 3600.0;

// Latex that loses 5 psi in 10 h from 75 psi, carbon dioxide 35.
scenario::Leak make_latex_leak() {
    scenario::Leak leak;
    leak.air = {75 * kPsi_pa, 5 * kPsi_pa, 10 * kHour_s};
    leak.carbon_dioxide = {75 * kPsi_pa, 35 * kPsi_pa, 10 * kHour_s};
    scenario::calibrate(leak, physics::WallMaterial::kNaturalRubber);
    return leak;
}

scenario::Model make_pumped_model() {
    scenario::Model model = support::make_plain_model(40000.0);
    model.inners[1].leak = make_latex_leak();
    model.weather.temperature_error_k = support::add_lucky(
        model, "day.warmth", 0.0, Deviation::kAdd, chance::make_normal(0.0, 3.0));
    model.preparation.gauge_error_pa = support::add_lucky(
        model, "day.gauge", 0.0, Deviation::kAdd, chance::make_normal(0.0, 5000.0));
    model.preparation.before_s = 3 * kHour_s;
    model.preparation.pumped_at_k = 280.0;
    return model;
}

struct Lanes {
    ride::LaneTerms terms;
    ride::LaneBlock block;
    sampling::DayBlock days;
};

// At the start; `clock_s` later where that is not zero, on the road without riding.
Lanes follow_latex(const scenario::Model& model, double clock_s,
                   base::InstructionSet set = base::detect_instruction_set()) {
    const support::PreparedRide prepared = support::prepare_ride(model, set);
    Lanes lanes{{}, {}, prepared.days->make_block()};
    prepared.days->fill(0, lanes.days);
    ride::set_lanes(model, *prepared.road, ride::Traits::of(model.setups[1]), lanes.days,
                    lanes.terms, lanes.block);
    ride::wait_for_start(model, *prepared.road, *prepared.kernel, lanes.terms);
    ride::RefreshTerms refresh = prepared.road->refresh;
    refresh.forecast = &prepared.road->forecast;
    for (double& time : lanes.block.time) time = clock_s;
    prepared.kernel->refresh_pressure(refresh, lanes.terms, lanes.block, {});
    return lanes;
}

double follow_exactly_pa(const scenario::Model& model, const Lanes& lanes, int lane,
                         double clock_s) {
    using namespace physics;
    const double warmer = lanes.days.of(model.weather.temperature_error_k)[lane];
    const double error = lanes.days.of(model.preparation.gauge_error_pa)[lane];
    const double start_k = model.weather.rows[0].temperature_k + warmer;
    const double pump_k = *model.preparation.pumped_at_k;
    const double outside = model.weather.pressure_pa;
    const double half_s = 0.5 * model.preparation.before_s;
    const double stated = model.setups[1].wheels[0].gauge_pa + error;
    TubeState tube = pump_with_air(stated, pump_k, outside);
    if (model.preparation.gas == scenario::FillGas::kCarbonDioxide) {
        tube.mix = make_pure(Gas::kCarbonDioxide, stated + outside);
    }
    const Stay stays[] = {{half_s, pump_k, outside},
                          {half_s, start_k, outside},
                          {clock_s, start_k, outside}};
    const TubeState end = follow_stays(tube, model.inners[1].leak.wall, stays);
    return compute_gauge_pressure_pa(end.mix, outside);
}

}  // namespace

TEST_CASE("lanes reach start and road with the pressure of the closed forms") {
    for (const auto gas : {scenario::FillGas::kAir, scenario::FillGas::kCarbonDioxide}) {
        scenario::Model model = make_pumped_model();
        model.preparation.gas = gas;
        for (const double clock_s : {0.0, 2 * kHour_s}) {
            const Lanes lanes = follow_latex(model, clock_s);
            for (int j = 0; j < ride::kLanes; ++j) {
                CHECK(lanes.terms.gauge_pa[0][j] ==
                      Approx(follow_exactly_pa(model, lanes, j, clock_s)).epsilon(1e-9));
            }
        }
    }
}

TEST_CASE("pressures that hold at the start are there at the start, to a millibar") {
    scenario::Model model = make_pumped_model();
    model.preparation.before_s = 0.0;
    model.preparation.pumped_at_k.reset();
    const Lanes lanes = follow_latex(model, 0.0);
    const double* error = lanes.days.of(model.preparation.gauge_error_pa);
    for (int j = 0; j < ride::kLanes; ++j) {
        CHECK(lanes.terms.gauge_pa[0][j] == Approx(5e5 + error[j]).margin(100.0));
    }
    // The twin: two hours later they are not.
    CHECK(follow_latex(model, 2 * kHour_s).terms.gauge_pa[0][0] <
          lanes.terms.gauge_pa[0][0] - 5000.0);
}

TEST_CASE("leaks are the same on every instruction set, to the bit") {
    const scenario::Model model = make_pumped_model();
    const Lanes expected = follow_latex(model, 5000.0, base::InstructionSet::kBaseline);
    for (const auto set : base::supported_instruction_sets()) {
        const Lanes found = follow_latex(model, 5000.0, set);
        for (int j = 0; j < ride::kLanes; ++j) {
            REQUIRE(found.terms.gauge_pa[1][j] == expected.terms.gauge_pa[1][j]);
        }
    }
}

TEST_CASE("carbon dioxide in a latex spare costs time that a pump does not") {
    scenario::Model model = support::make_plain_model(90000.0);
    model.inners[1].leak = make_latex_leak();
    // Far below its best pressure a tyre rolls slower the softer it gets.
    for (auto& setup : model.setups) {
        for (auto& wheel : setup.wheels) wheel.gauge_pa = 3.2e5;
        setup.kit.spare_inner = 1;
    }
    scenario::Model pumped = model;
    for (auto& setup : pumped.setups) {
        setup.kit.cartridge_kg.clear();
        setup.kit.pump = scenario::Pump::kFrame;
    }
    pumped.repair.frame_pump_s = 0.0;
    const auto ride_flat = [](const scenario::Model& m) {
        const support::PreparedRide prepared = support::prepare_ride(m);
        ride::BlockRider rider(prepared.plan());
        sampling::DayBlock days = prepared.days->make_block();
        prepared.days->fill(0, days);
        sampling::FlatPoint nail;
        nail.place_m = 5000.0;
        nail.height = 0.1;
        nail.wheel = 1;
        days.points = {nail};
        support::Results results;
        rider.ride(days, 1, ride::Solver::kFast, results);
        return results[0].time_s;
    };
    CHECK(ride_flat(model) > ride_flat(pumped) + 1.0);
}

TEST_CASE("air lost on the way costs what it does when followed five times as often") {
    // Carbon dioxide in latex, far below the best pressure: a loss that costs minutes.
    scenario::Model model = support::make_plain_model(90000.0);
    model.inners[1].leak = make_latex_leak();
    model.preparation.gas = scenario::FillGas::kCarbonDioxide;
    for (auto& setup : model.setups) {
        for (auto& wheel : setup.wheels) wheel.gauge_pa = 3.2e5;
    }
    const auto ride_first = [&](int setup, const std::function<void(ride::Road&)>& tune) {
        support::PreparedRide prepared = support::prepare_ride(model);
        tune(*prepared.road);
        ride::BlockRider rider(prepared.plan());
        sampling::DayBlock days = prepared.days->make_block();
        prepared.days->fill(0, days);
        days.points.clear();
        support::Results results;
        rider.ride(days, setup, ride::Solver::kConverged, results);
        return results[0].time_s;
    };
    const double usual_s = ride_first(1, [](ride::Road&) {});
    const double often_s =
        ride_first(1, [](ride::Road& road) { road.marks_per_pressure = 1; });
    // The twin: pressures of the beginning of each stretch.
    const double early_s = ride_first(1, [](ride::Road& road) {
        std::fill(road.typical_s.begin(), road.typical_s.end(), 0.0);
    });
    model.inners[1].leak = scenario::Leak{};  // loses nothing
    const double tight_s = ride_first(1, [](ride::Road&) {});
    const double cost_s = often_s - tight_s;
    INFO("costs " << cost_s << ", off by " << usual_s - often_s << ", early "
                  << early_s - often_s);
    CHECK(cost_s > 10.0);
    CHECK(std::fabs(usual_s - often_s) < 0.01 * cost_s);
    CHECK_FALSE(std::fabs(early_s - often_s) < 0.05 * cost_s);
}
