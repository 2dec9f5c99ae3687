// Tests that stand apart from all others.
#pragma once

#include <vector>

#include "evidence/rolling/table.h"

namespace flattail::evidence {

// Distance over its standard error from which a test is pointed out; one sound test in
// two thousand lies further off. Iglewicz & Hoaglin 1993 (from memory) use the same.
inline constexpr double kStandsOut = 3.5;

/// Scores every used test against what all others let expect, and notes those that stand
/// out with a likely reason. None is taken out: that is for the reader to decide.
/// Source:  METHOD 4.12
void find_outliers(std::vector<RollingTest>& tests, const TestTable& table,
                   MakerRows makers, const RollingPrior& prior);

}  // namespace flattail::evidence
