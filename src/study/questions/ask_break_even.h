// Rides the first days again with one thing moved, and finds where the answer turns.
#pragma once

#include <functional>
#include <vector>

#include "flattail/why.h"
#include "study/run_study.h"

namespace flattail::study {

/// What goes on while the questions are ridden.
struct Asking {
    const StudyOptions* options = nullptr;
    const BlockExecutor* run = nullptr;
    std::function<void(double)> progress;  // share of this question done
};

/// True when the scenario's rule compares chances and they told the setups apart.
bool decides_by_chance(const WholeStudy& study);

/// One entry per setup but the one compared with; empty when stopped on the way.
/// Source: METHOD 10.40, 10.41
std::vector<BreakEvenFindings> ask_break_even(const WholeStudy& study,
                                              BreakEvenQuestion question,
                                              const Asking& asking);

/// Flats per race of `setup` now, and with every tube ridden 50 km more.
FittingFindings ask_fitting(const WholeStudy& study, int setup, const Asking& asking);

}  // namespace flattail::study
