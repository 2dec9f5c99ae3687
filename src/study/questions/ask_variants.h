// The advised setup with other pressures and other kits, on ordinary and on bad days.
#pragma once

#include "flattail/why.h"
#include "study/questions/ask_break_even.h"

namespace flattail::study {

/// Pressures a little lower and higher within the limits, and the kits that kit.csv
/// rides, weight included. Nothing when no setup is advised.
/// Source: METHOD 10.49
VariantFindings ask_variants(const WholeStudy& study, int advised, const Asking& asking);

}  // namespace flattail::study
