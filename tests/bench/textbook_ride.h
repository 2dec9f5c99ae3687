// The ride as a careful programmer would write it down first: one rider after the other,
// one segment after the other, plain quantities, Newton until it stands still.
#pragma once

#include <vector>

#include "ride/kernel/kernel.h"
#include "ride/kernel/lane_terms.h"

namespace flattail::bench {

struct TextbookRider {
    double mass_kg;  // effective: inertia of the wheels included
    double power_w;  // at the wheel
    double weight_n;
    double drag_kg_m;  // rho CdA / 2
    double rolling_n[ride::kSurfaceClasses];
    double bearing_n, bearing_kg_s;
    double wind_east_m_s, wind_north_m_s;
    double cap_ratio;
    double speed_m_s, time_s;  // at the start
};

/// The riders of a block, in plain quantities.
std::vector<TextbookRider> list_textbook_riders(const ride::LaneTerms& terms,
                                                const ride::LaneBlock& block);

/// Finish times.
/// Accuracy: every segment's speed to 1e-6 m/s
std::vector<double> ride_textbook(const std::vector<ride::SegmentTerms>& road,
                                  const std::vector<TextbookRider>& riders);

}  // namespace flattail::bench
