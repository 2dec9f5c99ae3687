#include "publish/pages/kit_line.h"

#include <fmt/format.h>

#include <cmath>

namespace flattail::publish {

namespace {

// A race saved more seldom is not worth a sentence (common sense).
constexpr double kLeastFinishes = 1e-4;
// Standard errors that a figure must lie above zero: 19 times in 20.
constexpr double kSure = 1.96;

bool is_sure(const Figure& gain) { return gain.value > kSure * gain.standard_error; }

bool is_worth_it(const KitRow& row) {
    return row.is_added && row.finishes.value >= kLeastFinishes &&
           is_sure(row.finishes) && is_sure(row.net_s);
}

const char* name_next(int carried) {
    switch (carried) {
        case 0:
            return "a";
        case 1:
            return "a second";
        case 2:
            return "a third";
        default:
            return "one more";
    }
}

// Two digits are what the days tell.
std::string write_once_in(double chance) {
    const double days = 1.0 / chance;
    const double unit = std::pow(10.0, std::max(std::floor(std::log10(days)) - 1.0, 0.0));
    return fmt::format("{:.0f}", std::round(days / unit) * unit);
}

}  // namespace

std::string describe_kit(const Findings& findings, int advised) {
    const KitRow* best = nullptr;
    for (const KitRow& row : findings.kit) {
        if (row.setup != advised || !is_worth_it(row)) continue;
        if (best == nullptr || row.net_s.value > best->net_s.value) best = &row;
    }
    if (best == nullptr) return "";
    const double costs_s = best->costs_s.value;
    const std::string cost =
        costs_s < 0.95 ? "less than 1 s" : fmt::format("{:.0f} s", costs_s);
    return fmt::format("{} {} costs {} and saves the race on 1 day in {}: take it.",
                       name_next(best->carried), best->item, cost,
                       write_once_in(best->finishes.value));
}

}  // namespace flattail::publish
