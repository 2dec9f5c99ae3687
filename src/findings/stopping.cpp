#include "findings/stopping.h"

#include <algorithm>

#include "base/expects.h"

namespace flattail::findings {

std::uint64_t next_look(const StoppingRule& rule, std::uint64_t days) {
    FLATTAIL_EXPECTS(rule.first_look_days > 0 && rule.most_days > 0);
    std::uint64_t look = rule.first_look_days;
    while (look <= days && look < rule.most_days) look *= 2;
    return std::min(look, rule.most_days);
}

StoppingReason decide_stopping(const StoppingRule& rule, std::uint64_t days,
                               double half_width) {
    if (days >= rule.first_look_days && rule.within > 0 && half_width <= rule.within)
        return StoppingReason::kPreciseEnough;
    if (days >= rule.most_days) return StoppingReason::kMostDaysReached;
    return StoppingReason::kGoOn;
}

}  // namespace flattail::findings
