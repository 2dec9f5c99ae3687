// The second reading of a comparison: same weather and legs, flats of their own.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace flattail::findings {

/// A setup's days taken apart: time of the legs alone, and what flats added.
/// flat_delay_s is +infinity where flats ended the race.
struct LegsAndFlats {
    std::span<const double> legs_s;
    std::span<const double> flat_delay_s;
};

/// match[day]: days whose flats may stand in for one another (dry and wet days, say);
/// empty means any day may. These are NOT the sampling strata: strata by the number of
/// flats would hand every flat day another flat day, and nothing would be independent.
struct LuckExchange {
    std::span<const double> weight;
    std::span<const std::uint8_t> match;
    std::uint64_t seed = 0;
};

/// Finish times of a setup that keeps its legs but meets the flats of another day.
/// Partners are drawn inside each match group by systematic resampling in proportion to
/// weight and dealt out by a seeded shuffle, so that the result, under the same weights,
/// has the setup's own distribution of delays, independent of the other setup's flats.
/// With equal weights every day's flats are used exactly once.
/// Accuracy: standard errors taken from the result treat the partners as drawn afresh. On
///           days with one flat in 17 that is 6 to 8 % too large for the chance of being
///           faster; the mean difference is by construction that of shared luck, and its
///           error is better taken from there
/// Source:  METHOD 10.15
std::vector<double> exchange_flats(const LegsAndFlats& setup, const LuckExchange& how);

}  // namespace flattail::findings
