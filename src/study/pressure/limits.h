// Between which pressures a wheel may be pumped.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "flattail/preparation.h"
#include "scenario/model.h"
#include "study/prepared.h"

namespace flattail::study {

struct PumpLimits {
    std::optional<PressureBound> most, least;
    PressureBound pinch;
    std::vector<std::string> missing;  // what to write into the scenario first
};

/// The lower of the tyre's and the rim's maximum (hookless rims: 5 bar at most), and what
/// bounds the pressure below. Without both maxima there is no `most`.
/// Source:  METHOD 16.3
PumpLimits find_pump_limits(const scenario::Model& model, const scenario::Setup& setup,
                            int wheel);

/// The warmest that air and tyres may get from pumping to finish: the hottest hour of the
/// forecast, with what it may be off (95 %).
double find_hottest_k(const scenario::Model& model);

struct PumpBounds {
    PressureBound lowest, highest;
};

/// What the gauge may show when the tyres are pumped, or at the start where pressures are
/// stated for it: the most is held at the hottest moment, the least is the tyre's or
/// where pinch flats come too often.
/// Range:   limits.most is known
PumpBounds find_pump_bounds(const Prepared& prepared, const PumpLimits& limits);

}  // namespace flattail::study
