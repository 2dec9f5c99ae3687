// Typical days against bad days, and what a second costs.
#pragma once

#include <vector>

#include "flattail/why.h"
#include "study/run_study.h"

namespace flattail::study {

/// One row per setup, in order.
/// Source: METHOD 10.45
std::vector<TradeOffRow> ask_trade_off(const WholeStudy& study);

}  // namespace flattail::study
