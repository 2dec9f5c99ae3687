// The reference hazard along the road: where cuts and pinches wait, before any tyre.
#pragma once

#include <array>
#include <vector>

#include "course/segments.h"
#include "sampling/day_block.h"

namespace flattail::sampling {

/// Cumulative hazard of each cause in "metres of ordinary road": the length of the course
/// where everything is ordinary, more where debris or roughness raise it. Fitting faults
/// fade with the distance ridden.
class RoadHazard {
  public:
    /// `rough_pinch_ratio`: impacts per metre on coarse roads / on ordinary ones; cobbles
    /// double it.
    RoadHazard(const std::vector<course::Segment>& segments, double rough_pinch_ratio);

    double total_m(FlatCause cause) const { return sums(cause).back(); }
    double length_m() const { return ends_m_.back(); }

    /// The place below which a share of a cause's hazard lies.
    /// Range: share in [0, 1]
    double find_place_m(FlatCause cause, double share) const;

  private:
    const std::vector<double>& sums(FlatCause cause) const {
        return sums_[static_cast<std::size_t>(cause)];
    }

    std::vector<double> ends_m_;                     // 0, then the end of each segment
    std::array<std::vector<double>, kCauses> sums_;  // hazard up to there
};

}  // namespace flattail::sampling
