// Rules of safety and sense that a setup may break.
#pragma once

#include "scenario/model.h"

namespace flattail::scenario {

/// Adds the cautions of a setup and vetoes it where a rule forbids to ride it. Pressures
/// are checked at the hottest hour of the forecast.
/// Source:  common practice after ETRTO and makers' markings; see each rule
void add_cautions(const Model& model, Setup& setup);

/// Vetoes a setup that carries less than the least kit.
void check_least_kit(const Kit& least, Setup& setup);

}  // namespace flattail::scenario
