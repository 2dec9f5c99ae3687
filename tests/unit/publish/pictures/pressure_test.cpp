// Tyre pressure from the pump to the finish, as drawn.
#include <cmath>

#include "support/catch.h"
#include "support/scratch_directory.h"
#include "unit/publish/pictures/drawn_files.h"

using namespace flattail;
using namespace flattail::test;

namespace {

constexpr double kPsi_pa = 6894.757293168;

WheelPump invent_wheel(const PumpPlan& plan, const char* name, double psi) {
    WheelPump wheel;
    wheel.wheel = name;
    wheel.stated_pa = psi * kPsi_pa;
    for (const double time_s : plan.times_s) {
        wheel.on_the_way_pa.push_back((psi - time_s / 7200.0) * kPsi_pa);
    }
    const auto likely = [](double middle) {
        return LikelyPressure{middle * kPsi_pa, (middle - 3) * kPsi_pa,
                              (middle + 3) * kPsi_pa};
    };
    wheel.at_start = likely(psi);
    wheel.at_finish = likely(psi - 1);
    wheel.most = PressureBound{94 * kPsi_pa, "the rim's limit"};
    wheel.least = PressureBound{55 * kPsi_pa, "the tyre's least"};
    return wheel;
}

// Pumped `wait_s` before a ride of two and a half hours. Invented figures.
PumpPlan invent_plan(const std::vector<std::string>& names, double wait_s = 7200.0) {
    PumpPlan plan;
    plan.race_name = "Three Herons Middle, bike leg";
    plan.start_clock_s = 8 * 3600 + 300;
    plan.pump_clock_s = plan.start_clock_s - wait_s;
    plan.finish_clock_s = plan.start_clock_s + 9000;
    for (int i = 4; i > 0 && wait_s > 0; --i) plan.times_s.push_back(-wait_s * i / 4);
    for (int i = 0; i <= 8; ++i) plan.times_s.push_back(9000.0 * i / 8);
    for (const std::string& name : names) {
        SetupPump setup;
        setup.name = name;
        setup.wheels = {invent_wheel(plan, "front", 68), invent_wheel(plan, "rear", 71)};
        plan.setups.push_back(setup);
    }
    return plan;
}

Svgs draw_pressure(const PumpPlan& plan) {
    const ScratchDirectory scratch;
    return read_svgs(write_pump_pictures(plan, scratch.path()), scratch.path());
}

void drop_limits(PumpPlan& plan) {
    for (SetupPump& setup : plan.setups) {
        for (WheelPump& wheel : setup.wheels) wheel.most.reset();
        setup.missing = {"rim = { most = ... }"};
    }
}

}  // namespace

TEST_CASE("pressures of 1 to 8 setups are drawn without clipped or colliding text") {
    for (const std::size_t setups : {1U, 2U, 4U, 8U}) {
        check_svgs(draw_pressure(invent_plan(list_hard_names(setups))), 2);
    }
}

TEST_CASE(
    "pumped at the start, hours before or the day before, the picture is in order") {
    for (const double wait_s : {0.0, 900.0, 7200.0, 50000.0}) {
        check_svgs(draw_pressure(invent_plan({"Butyl", "Latex"}, wait_s)), 2);
    }
    const Svgs before = draw_pressure(invent_plan({"Butyl"}, 50000.0));
    CHECK(shows(before, "pressure.svg", "pumped 18:12 the day before, start 08:05"));
    const Svgs at_start = draw_pressure(invent_plan({"Butyl"}, 0.0));
    CHECK(shows(at_start, "pressure.svg", "read off at the start"));
    CHECK_FALSE(shows(at_start, "pressure.svg", "pumped"));
}

TEST_CASE("limits are drawn where they are stated, and only there") {
    PumpPlan plan = invent_plan({"Butyl"});
    const Svgs stated = draw_pressure(plan);
    CHECK(shows(stated, "pressure.svg", "at most 94 psi (6.5 bar), the rim's limit"));
    CHECK(shows(stated, "pressure-phone.svg", "at most 94 psi (6.5 bar)"));
    CHECK(shows(stated, "pressure.svg", "at least 55 psi (3.8 bar), the tyre's least"));
    CHECK_FALSE(shows(stated, "pressure.svg", "limits are not stated"));
    drop_limits(plan);
    const Svgs open = draw_pressure(plan);
    check_svgs(open, 2);
    CHECK_FALSE(shows(open, "pressure.svg", "at most 94"));
    CHECK(shows(open, "pressure.svg", "limits are not stated"));
}

TEST_CASE("wheels of one pressure, and wheels far apart, keep their names apart") {
    PumpPlan plan = invent_plan({"Butyl", "Latex"});
    plan.setups[0].wheels[1] = plan.setups[0].wheels[0];
    plan.setups[1].wheels[0] = invent_wheel(plan, "front", 110);
    plan.setups[1].wheels[0].most->gauge_pa = 80 * kPsi_pa;
    const Svgs svgs = draw_pressure(plan);
    check_svgs(svgs, 2);
    CHECK(shows(svgs, "pressure.svg", "at most 80/94 psi front/rear"));
}

TEST_CASE("two drawings of one plan are the same bytes") {
    const PumpPlan plan = invent_plan(list_hard_names(3));
    CHECK(draw_pressure(plan) == draw_pressure(plan));
    PumpPlan other = plan;
    other.setups[0].wheels[0].on_the_way_pa[2] -= kPsi_pa;
    CHECK(draw_pressure(plan) != draw_pressure(other));
}
