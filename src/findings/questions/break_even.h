// Where a difference changes its sign as one thing is moved over a range.
#pragma once

#include <span>
#include <vector>

#include "findings/sample/estimate.h"

namespace flattail::findings {

/// The difference at one place of the range.
struct ScanPoint {
    double x = 0;
    Estimate difference;
};

/// One change of sign. The interval holds every x at which the difference, give or take
/// its computing error, may be 0; where it meets the end of the range it is open there.
struct BreakEvenPoint {
    double x = 0;
    Interval interval;
    bool is_open_below = false;
    bool is_open_above = false;
    bool rises = false;  ///< from minus to plus
};

/// Every change of sign, in order; between two points of the scan lines are straight.
/// Changes that lie in one undecided stretch cannot be told apart: an odd number of them
/// counts as one, an even number as none.
/// Range:   at least two points by rising x
/// Source:  METHOD 10.41 (inverted test of difference = 0; Fieller 1954 for the idea)
std::vector<BreakEvenPoint> find_break_even(std::span<const ScanPoint> scan,
                                            double confidence = kConfidence);

}  // namespace flattail::findings
