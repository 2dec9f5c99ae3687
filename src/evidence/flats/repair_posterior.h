// How long a rider's repairs take, from the times in a log.
#pragma once

#include <vector>

#include "flattail/flat_log.h"

namespace flattail::evidence {

/// What is believed beforehand: repairs are lognormal; their median lies within a third
/// of `median_s` (9 in 10), two in three within a factor of about 1.5 of it.
struct RepairBeliefs {
    double median_s = 480.0;
    double within = 0.3;        // common practice
    double spread = 1.5;        // common practice
    double spread_doubt = 0.3;  // sd of ln(ln spread); assumption: 1.3 to 1.95, 9 in 10
};

/// Median and spread after the times.
/// Source:  METHOD 6.19
LoggedRepairs fit_repairs(const std::vector<double>& times_s,
                          const RepairBeliefs& beliefs = {});

}  // namespace flattail::evidence
