// How much likelier flats are in races, from the race rides of a log.
#pragma once

#include <vector>

#include "evidence/flats/rate_posterior.h"

namespace flattail::evidence {

/// The factor's beliefs on a grid: before the log those of a scenario's default, .8 with
/// 9 in 10 from .4 to 1.3.
struct RaceFactor {
    LogGrid grid;
    std::vector<double> weights;
};
RaceFactor start_race_factor();

/// Takes the race days of one group in. `training` are the weights of its training rate,
/// which races do not change.
/// Source:  METHOD 6.18
void learn_from_races(RaceFactor& factor, const std::vector<DayCount>& days,
                      double clump_shape, const LogGrid& rates,
                      const std::vector<double>& training);

/// Chances of no flat and of one over a race of `race_m`, the rate, the factor and the
/// day not being known.
struct RaceChances {
    double none = 1.0;
    double one = 0.0;
};
RaceChances predict_race(const RaceFactor& factor, const LogGrid& rates,
                         const std::vector<double>& weights, double clump_shape,
                         double race_m);

}  // namespace flattail::evidence
