// The fitted start guess of the ride: one small polynomial per segment, made once per
// scenario.
#pragma once

#include <vector>

#include "ride/kernel/kernel.h"
#include "ride/road.h"
#include "sampling/day_plan.h"

namespace flattail::ride {

/// Fits u on every segment to {1, v, v^2, P, head wind} over pilot days: drawn like all
/// others from days of their own, then shaken in power, wind and entry speed, so that
/// each influence is seen apart even on calm days and a restart finds a fair guess.
/// Weighted by 1 / u^2.
/// Accuracy: any guess gives the right ride, since every lane is checked; a poor one
///           costs time
/// Source:  METHOD 8.3
std::vector<GuessTerms> fit_guesses(const scenario::Model& model, const Road& road,
                                    const sampling::DayPlan& plan, const Kernel& kernel);

}  // namespace flattail::ride
