#include "study/precision.h"

#include <algorithm>

#include "findings/paired.h"
#include "findings/sample/means.h"
#include "findings/stopping.h"
#include "findings/summary/study_sample.h"

namespace flattail::study {

bool is_precise_enough(const outcome::Outcomes& outcomes, const scenario::Model& model,
                       std::size_t days, double within_s) {
    const auto sample = findings::sort_outcomes(outcomes, model, days);
    const auto against = static_cast<std::size_t>(model.decision.against);
    double widest = 0.0;
    for (std::size_t s = 0; s < sample->setups(); ++s) {
        const std::vector<double> difference =
            findings::difference_by_day(sample->judged_s[s], sample->judged_s[against]);
        const findings::Estimate mean =
            findings::estimate_mean(difference, sample->design);
        widest = std::max(
            widest, mean.standard_error * findings::normal_factor(findings::kConfidence));
    }
    const findings::StoppingRule rule{within_s, outcomes.days()};
    return findings::decide_stopping(rule, days, widest) ==
           findings::StoppingReason::kPreciseEnough;
}

}  // namespace flattail::study
