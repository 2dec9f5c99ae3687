#include "findings/questions/changed_mean.h"

#include <cmath>
#include <vector>

#include "findings/sample/means.h"

namespace flattail::findings {

namespace {

// Variances of two sums and of their sum, stratum by stratum: the covariance follows.
double correlate(const std::vector<double>& a, const std::vector<double>& b,
                 std::span<const std::uint8_t> stratum) {
    StratifiedVariance of_a, of_b, of_both;
    for (std::size_t day = 0; day < a.size(); ++day) {
        const std::uint8_t group = stratum.empty() ? std::uint8_t{0} : stratum[day];
        of_a.add(group, a[day]);
        of_b.add(group, b[day]);
        of_both.add(group, a[day] + b[day]);
    }
    const double va = of_a.variance(), vb = of_b.variance();
    if (va <= 0 || vb <= 0) return 0;
    const double covariance = 0.5 * (of_both.variance() - va - vb);
    return covariance / std::sqrt(va * vb);
}

}  // namespace

Estimate estimate_changed_mean(const WholeMean& whole, const ChangedDays& days) {
    const std::size_t count = days.before.size();
    FLATTAIL_EXPECTS(days.after.size() == count && count > 1);
    const double before = estimate_mean(days.before, days.before_design).value;
    const double after = estimate_mean(days.after, days.after_design).value;
    const double before_weight = total_weight(days.before_design);
    const double after_weight = total_weight(days.after_design);
    StratifiedVariance spread;
    std::vector<double> change(count), level(count);
    const auto stratum = days.before_design.stratum;
    for (std::size_t day = 0; day < count; ++day) {
        level[day] =
            days.before_design.weight[day] * (days.before[day] - before) / before_weight;
        change[day] =
            days.after_design.weight[day] * (days.after[day] - after) / after_weight -
            level[day];
        spread.add(stratum.empty() ? std::uint8_t{0} : stratum[day], change[day]);
    }
    const double moved = std::sqrt(spread.variance());
    const double still = whole.mean.standard_error;
    const double shared =
        std::sqrt(std::min(1.0, static_cast<double>(count) / whole.days));
    const double variance =
        moved * moved + still * still +
        2 * shared * correlate(level, change, stratum) * moved * still;
    return {whole.mean.value + (after - before), std::sqrt(std::max(variance, 0.0))};
}

}  // namespace flattail::findings
