// The entry points of the ride kernel, one table for each instruction set.
#pragma once

#include "base/instruction_set.h"
#include "ride/kernel/lane_block.h"
#include "ride/kernel/lane_terms.h"

namespace flattail::ride {

/// The loops of the ride. All draw nothing, allocate nothing and throw nothing.
/// Accuracy: the same bits in every table. ride_simple within .005 %, ride_fast within
/// .05 % of
///           ride_converged over a whole race (METHOD 8.3)
struct Kernel {
    /// Rides `count` segments with one fitted guess each: the fast path.
    void (*ride_fast)(const SegmentTerms* segments, const GuessTerms* guesses, int count,
                      LaneBlock& block, SettleCount& settled);
    /// Rides `count` segments without a fit: the simple path, 1.6 x slower.
    void (*ride_simple)(const SegmentTerms* segments, int count, LaneBlock& block,
                        SettleCount& settled);
    /// Rides `count` segments with every root converged: what the accuracy check compares
    /// with.
    void (*ride_converged)(const SegmentTerms* segments, int count, LaneBlock& block,
                           SettleCount& settled);
    /// The mean speed u of every lane on one segment, converged, without riding it.
    void (*find_roots)(const SegmentTerms& segment, const LaneBlock& block,
                       double* roots);
    /// Starts every lane from rest and rides to `distance_m` by launch steps.
    void (*launch)(const SegmentTerms& segment, double launch_force_n,
                   const LaneTerms& terms, LaneBlock& block);
    /// Power, wind, air, wet and rolling at the lane's own clock.
    void (*refresh)(const RefreshTerms& refresh, const PlaceFactors& place,
                    LaneTerms& terms, LaneBlock& block, const LaneRange& range);
    /// Lets the gases of all tyres leak at a temperature per lane until a race time per
    /// lane.
    void (*leak)(const RefreshTerms& refresh, const double* temperature_k,
                 const double* until_s, LaneTerms& terms, const LaneRange& range);
    /// Tyre pressure at the lane's own clock, and what it does to rolling.
    void (*refresh_pressure)(const RefreshTerms& refresh, LaneTerms& terms,
                             const LaneBlock& block, const LaneRange& range);
    /// The same without what leaks through walls: after some air was let out.
    void (*refresh_rolling)(const RefreshTerms& refresh, LaneTerms& terms,
                            const LaneBlock& block, const LaneRange& range);
};

/// The loops of one instruction set, which must be among
/// base::supported_instruction_sets().
const Kernel& find_kernel(base::InstructionSet set);

}  // namespace flattail::ride
