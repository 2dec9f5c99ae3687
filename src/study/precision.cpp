#include "study/precision.h"

#include "findings/stopping.h"
#include "findings/summary/study_sample.h"
#include "study/sharpen.h"

namespace flattail::study {

bool is_precise_enough(const Prepared& prepared, const outcome::Outcomes& outcomes,
                       const BlockExecutor& run, std::size_t days, double within_s) {
    const auto sample = findings::sort_outcomes(outcomes, *prepared.model, days, run);
    const double half_width_s = find_largest_mean_error_s(*sample, prepared, run) *
                                findings::normal_factor(findings::kConfidence);
    const findings::StoppingRule rule{within_s, outcomes.days()};
    return findings::decide_stopping(rule, days, half_width_s) ==
           findings::StoppingReason::kPreciseEnough;
}

}  // namespace flattail::study
