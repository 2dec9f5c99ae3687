// The road as it meets the wind: directions and usual speeds between two marks, for drag
// that changes with yaw.
#pragma once

#include <vector>

#include "course/segments.h"
#include "ride/kernel/lane_terms.h"
#include "scenario/model.h"

namespace flattail::ride {

struct Road;

/// Per mark, what its kilometres look like to the wind; empty when drag does not change
/// with yaw.
struct YawRoad {
    YawTerms terms;
    std::vector<YawSector> sectors;
    std::vector<int> first_sector;  // per mark, and the end

    bool is_used() const { return !first_sector.empty(); }
    YawStretch at(std::size_t mark) const;
};

/// Needs terms, marks, forecast and pacing of the road.
/// Source:  METHOD 8.10
YawRoad build_yaw_road(const scenario::Model& model, const course::TypicalRider& rider,
                       const Road& road);

}  // namespace flattail::ride
