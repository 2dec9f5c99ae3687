// One rider alone over one piece of road: the same balance as the kernel's, solved to the
// root.
#pragma once

#include "ride/kernel/balance.h"
#include "ride/kernel/lane_block.h"

namespace flattail::ride {

/// Bearing resistance 91 + 8.7 v mW per m/s.
/// Source: Martin et al. 1998, METHOD 3.1
constexpr double kBearingForceN = 0.091;
constexpr double kBearingForcePerSpeed = 0.0087;  // N per m/s

/// Rides one lane over `segment` and leaves speed and clock at its end.
/// Accuracy: root within 1e-9 m/s
void step_lane(const SegmentTerms& segment, LaneBlock& block, int lane);

/// The largest root u of the balance on this segment, or walking pace / 2 without one.
double find_lane_root(const SegmentTerms& segment, const LaneBlock& block, int lane);

/// From rest over kPushOffM; `inverse_mass` is 1 / 2 m_e.
void push_off_lane(const SegmentTerms& segment, double force_n, double inverse_mass,
                   LaneBlock& block, int lane);

/// The segment's terms for a shorter piece of it. The cap acts at the segment's own end
/// only.
SegmentTerms shorten(const SegmentTerms& segment, double length_m, bool reaches_end);

}  // namespace flattail::ride
