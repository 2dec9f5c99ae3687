// Drag that changes with the angle of the air: a table of the rider's own.
#pragma once

#include "scenario/draft.h"

namespace flattail::scenario {

/// `rider.drag_by_yaw`: a CSV with the columns `yaw` and `factor`, or rows like
/// { yaw = "10 deg", factor = 0.95 }. The factor is what a balance along the bicycle
/// reads at this yaw over what it reads at none, at the same air speed.
/// Source:  METHOD 3.8
void read_drag_by_yaw(Draft& draft, Table& rider);

}  // namespace flattail::scenario
