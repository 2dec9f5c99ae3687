// The rides of a log by inner or setup, each group's days with the distance they weigh.
#pragma once

#include <string>
#include <vector>

#include "evidence/flats/rate_posterior.h"
#include "evidence/flats/read_log.h"

namespace flattail::evidence {

/// The distance that would bring as many flats in training on a dry ordinary road and the
/// race tyre.
/// Source:  METHOD 6.20
double compute_even_distance_m(const LogRide& ride);

struct RideSum {
    std::int64_t rides = 0;
    double distance_m = 0.0;
    double even_m = 0.0;
    std::int64_t flats = 0;
    std::vector<DayCount> days;
};

struct RideGroup {
    std::string name;
    RideSum training, races;
};

struct GroupedRides {
    bool by_inner = false;
    std::vector<RideGroup> groups;  // the reference first
};

/// Inners where the log names them, else setups, else all together. The reference is
/// butyl, with or without a ride on it; for setups the one with most km.
GroupedRides group_rides(const LogRides& rides);

}  // namespace flattail::evidence
