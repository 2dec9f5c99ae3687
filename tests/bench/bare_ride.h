// Race days at the start of a road and nothing but the kernel to ride them: no marks, no
// flats, no results kept.
#pragma once

#include <vector>

#include "ride/kernel/kernel.h"
#include "ride/kernel/lane_terms.h"
#include "support/prepared_ride.h"

namespace flattail::bench {

struct BareRide {
    const ride::Kernel* kernel = nullptr;
    std::vector<ride::SegmentTerms> road;
    std::vector<ride::GuessTerms> guesses;
    std::vector<ride::LaneBlock> starts;  // just under way
    std::vector<ride::LaneTerms> terms;   // [block], for who rides it in another way

    int segments() const { return static_cast<int>(road.size()); }
    double lane_segments() const;
};

/// `blocks` blocks of days under one setup, launched; the road behind its first segment,
/// or, with `segments`, that road over and over.
BareRide prepare_bare_ride(const support::PreparedRide& prepared, int setup, int blocks,
                           int segments = 0);

/// Rides all blocks from start to end; comes back with one finish time of the last one.
double ride_bare(const BareRide& bare);

}  // namespace flattail::bench
