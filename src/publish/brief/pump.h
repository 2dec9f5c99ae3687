// What to pump on race morning.
#pragma once

#include "publish/brief/content.h"

namespace flattail::publish {

/// Fills content.pump for one setup.
void add_pump(const PumpPlan& plan, int setup, BriefContent& content);

}  // namespace flattail::publish
