#include "publish/pages/computing_error.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "publish/words.h"

namespace flattail::publish {

namespace {

// Two-sided 95 % factor of the normal distribution: "19 times in 20".
constexpr double kNineteenInTwenty = 1.959964;

// Half the 95 % interval of the typical day, the widest of all setups; infinite where it
// reaches the days without a finish.
double find_typical_error(const Findings& findings) {
    double widest_s = 0.0;
    for (const SetupFindings& setup : findings.setups) {
        for (const PercentileRow& row : setup.percentiles) {
            if (row.percent != 50.0 || std::isinf(row.time_s)) continue;
            const double half_s = 0.5 * (row.interval_s.high - row.interval_s.low);
            widest_s = std::max(widest_s, half_s);
        }
    }
    return widest_s;
}

double find_difference_error(const Findings& findings) {
    double widest_s = 0.0;
    for (const PairFindings& pair : findings.pairs) {
        widest_s = std::max(widest_s, kNineteenInTwenty * pair.mean_s.standard_error);
    }
    return widest_s;
}

// The wider side of a chance's limits.
double find_count_error(const Findings& findings) {
    double widest = 0.0;
    const auto look_at = [&](const Figure& chance) {
        if (chance.standard_error <= 0.0) return;
        const Interval limits =
            find_chance_limits(chance, findings.facts.effective_races);
        widest =
            std::max({widest, limits.high - chance.value, chance.value - limits.low});
    };
    for (const SetupFindings& setup : findings.setups) {
        for (const Figure& goal : setup.goals) look_at(goal);
        for (const Figure* chance : {&setup.flat, &setup.lose_long, &setup.no_finish}) {
            look_at(*chance);
        }
    }
    return 100.0 * widest;
}

std::string format_count_error(double error) {
    if (error < 0.1) return "under 0.1";
    return error < 10.0 ? fmt::format("{:.1f}", std::ceil(error * 10.0) / 10.0)
                        : fmt::format("{:.0f}", std::ceil(error));
}

}  // namespace

std::string describe_error(const Findings& findings, Reader reader) {
    const bool is_page = reader == Reader::kRacer;
    const double typical_s = find_typical_error(findings);
    std::string text = "Computing error, 19 in 20 below: typical day ";
    text += std::isinf(typical_s) ? "open" : format_time_error(typical_s);
    if (!findings.pairs.empty()) {
        text += is_page ? ", NET " : ", average difference ";
        text += format_time_error(find_difference_error(findings));
    }
    return text + (is_page ? ", counts " : ", days in 100 ") +
           format_count_error(find_count_error(findings)) + ".";
}

}  // namespace flattail::publish
