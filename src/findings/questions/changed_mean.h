// A mean of the whole study after something was changed, from a part of its days ridden
// again.
#pragma once

#include <span>

#include "findings/sample/estimate.h"

namespace flattail::findings {

/// The same days before and after a change; a change may move what a day weighs.
/// Shapes:  before[day], after[day], designs alike
struct ChangedDays {
    std::span<const double> before;
    std::span<const double> after;
    Design before_design;
    Design after_design;
};

/// Mean of the whole study, and the days it came from.
struct WholeMean {
    Estimate mean;
    double days = 0;
};

/// The mean after the change over the days ridden again, which are the first of the
/// whole, mended by what these were off by before it, as far as the change keeps that:
/// what the two share is counted once. Before the change the answer is the whole mean to
/// the bit; where every day comes to the same after it, the answer is that.
/// Source: METHOD 10.40 (two-phase regression estimator; Cochran 1977, chapter 12)
Estimate estimate_changed_mean(const WholeMean& whole, const ChangedDays& days);

/// What the change alone does to the mean of the days ridden again.
/// Source: METHOD 10.3
Estimate estimate_change(const ChangedDays& days);

}  // namespace flattail::findings
