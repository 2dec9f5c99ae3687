// What moves the result, and what knowing more is worth, from the days of the study.
#pragma once

#include <vector>

#include "flattail/why.h"
#include "study/run_study.h"

namespace flattail::study {

/// One entry per setup but the one compared with.
/// Source: METHOD 10.42
std::vector<MovesFindings> ask_moves(const WholeStudy& study);

/// For rules by average or chance; for the others it says why there is no answer.
/// Source: METHOD 10.43, 10.44
InformationFindings ask_information(const WholeStudy& study);

}  // namespace flattail::study
