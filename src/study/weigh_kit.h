// What each thing in a kit buys and weighs, by riding without it or with one more.
#pragma once

#include <vector>

#include "findings/summary/study_sample.h"
#include "flattail/findings.h"
#include "study/blocks.h"
#include "study/prepared.h"

namespace flattail::study {

/// Rows of one setup, from the first days of the study ridden again with each other kit.
/// Weight and mending are told apart: a thing's weight costs what its share of 100 g more
/// costs.
/// Source:  METHOD 10.60
std::vector<KitRow> weigh_kit(const Prepared& prepared,
                              const findings::StudySample& sample,
                              const BlockExecutor& run, int setup);

/// The kits of the choice and of the setup compared with, into the findings.
void weigh_kits(const Prepared& prepared, const findings::StudySample& sample,
                const BlockExecutor& run, Findings& findings);

}  // namespace flattail::study
