#include "findings/questions/changed_mean.h"

#include <cmath>
#include <vector>

#include "findings/sample/means.h"

namespace flattail::findings {

namespace {

using Terms = std::vector<double>;

// What each day adds to the error of a mean.
Terms find_terms(std::span<const double> values, const Design& design, double mean) {
    const double weight = total_weight(design);
    Terms terms(values.size());
    for (std::size_t day = 0; day < terms.size(); ++day) {
        terms[day] = design.weight[day] * (values[day] - mean) / weight;
    }
    return terms;
}

struct Spread {
    double a = 0.0, b = 0.0, together = 0.0;  // two variances and the covariance
};

// Variances of two sums, and of their sum and difference, stratum by stratum: the
// covariance follows, and that of a sum with itself is its variance to the bit.
Spread measure(const Terms& a, const Terms& b, std::span<const std::uint8_t> stratum) {
    StratifiedVariance of_a, of_b, of_sum, of_difference;
    for (std::size_t day = 0; day < a.size(); ++day) {
        const std::uint8_t group = stratum.empty() ? std::uint8_t{0} : stratum[day];
        of_a.add(group, a[day]);
        of_b.add(group, b[day]);
        of_sum.add(group, a[day] + b[day]);
        of_difference.add(group, a[day] - b[day]);
    }
    return {of_a.variance(), of_b.variance(),
            0.25 * (of_sum.variance() - of_difference.variance())};
}

double correlate(const Spread& spread) {
    if (spread.a <= 0 || spread.b <= 0) return 0;
    return spread.together / std::sqrt(spread.a * spread.b);
}

}  // namespace

Estimate estimate_changed_mean(const WholeMean& whole, const ChangedDays& days) {
    const std::size_t count = days.before.size();
    FLATTAIL_EXPECTS(days.after.size() == count && count > 1);
    const double before = estimate_mean(days.before, days.before_design).value;
    const double after = estimate_mean(days.after, days.after_design).value;
    const auto stratum = days.before_design.stratum;
    const Terms level = find_terms(days.before, days.before_design, before);
    Terms change = find_terms(days.after, days.after_design, after);
    const Spread both = measure(level, change, stratum);
    // How much of what the first days are off by is still there after the change: 1
    // without one, 0 where the change leaves nothing to be off by.
    const double kept = both.a > 0 ? both.together / both.a : 1.0;
    for (std::size_t day = 0; day < count; ++day) change[day] -= kept * level[day];
    const Spread left = measure(level, change, stratum);
    const double moved = std::sqrt(left.b);
    const double still = kept * whole.mean.standard_error;
    const double shared =
        std::sqrt(std::min(1.0, static_cast<double>(count) / whole.days));
    const double variance =
        moved * moved + still * still + 2 * shared * correlate(left) * moved * still;
    const double value = kept == 1.0 ? whole.mean.value + (after - before)
                                     : after + kept * (whole.mean.value - before);
    return {value, std::sqrt(std::max(variance, 0.0))};
}

Estimate estimate_change(const ChangedDays& days) {
    const double before = estimate_mean(days.before, days.before_design).value;
    const double after = estimate_mean(days.after, days.after_design).value;
    const Terms level = find_terms(days.before, days.before_design, before);
    Terms change = find_terms(days.after, days.after_design, after);
    for (std::size_t day = 0; day < change.size(); ++day) change[day] -= level[day];
    const Spread moved = measure(level, change, days.before_design.stratum);
    return {after - before, std::sqrt(moved.b)};
}

}  // namespace flattail::findings
