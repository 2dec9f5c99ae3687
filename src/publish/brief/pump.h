// What to pump on race morning.
#pragma once

#include "publish/brief/content.h"

namespace flattail::publish {

/// Fills content.pump for one setup.
/// "66/69 psi, 4.5/4.7 bar", front first.
std::string say_pair(double front_pa, double rear_pa);

void add_pump(const PumpPlan& plan, int setup, BriefContent& content);

}  // namespace flattail::publish
