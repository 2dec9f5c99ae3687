// What the tyres of a setup hold, from the pump to the start and after a repair.
#pragma once

#include "ride/kernel/kernel.h"
#include "ride/road.h"
#include "ride/traits.h"
#include "sampling/day_block.h"

namespace flattail::ride {

/// Pump and start of each day. A stated temperature is known; a forecast one is off by as
/// much as that of the race. The pump has a clock time, the start may be later or earlier
/// than on a typical day.
struct Waits {
    double pump_k[kLanes], start_k[kLanes], waiting_s[kLanes];
};
Waits find_waits(const scenario::Model& model, const Road& road, const LaneTerms& terms);

/// Fills both tyres of every lane as their gauge showed when they were pumped, with the
/// leaks of their inners. The clock of the leaks stands at the pumping, before the start.
void pump_wheels(const scenario::Model& model, const Road& road, const Traits& traits,
                 const sampling::DayBlock& days, LaneTerms& terms);

/// Brings the tyres from the pump to the start: half of the time as warm as they were
/// pumped, half as warm as at the start (assumption). Nothing to do where pressures hold
/// at the start.
void wait_for_start(const scenario::Model& model, const Road& road, const Kernel& kernel,
                    LaneTerms& terms);

/// Leaks of one wheel with this inner: after a repair the spare's.
void set_wheel_leak(const scenario::Model& model, int inner, int wheel,
                    const sampling::DayBlock& days, LaneRange range, LaneTerms& terms);

/// What a tyre holds after a stop: air, and carbon dioxide from cartridges.
struct Filling {
    double gauge_pa = 0.0;
    double carbon_dioxide_pa = 0.0;  // its part of the absolute pressure
    double temperature_k = 288.15;
};

/// Fills one tyre of one lane anew.
void fill_wheel(const RefreshTerms& refresh, const Filling& filling, int wheel, int lane,
                LaneTerms& terms);

/// Lets part of what a tyre holds escape, until its gauge shows less by `lost_pa`.
void let_out(double air_pressure_pa, double lost_pa, int wheel, int lane,
             LaneTerms& terms);

}  // namespace flattail::ride
