// What counts of flats say by themselves, without any belief beforehand.
#pragma once

#include <cstdint>

#include "flattail/flat_log.h"

namespace flattail::evidence {

/// Exact limits of the mean of a Poisson count, 95 % unless said otherwise.
/// Range:   count >= 0, 0 < confidence < 1
/// Source:  METHOD 6.13 (Garwood 1936)
Interval compute_poisson_limits(std::int64_t count, double confidence = 0.95);

/// A count and the distance over which it was counted.
struct CountedDistance {
    std::int64_t flats = 0;
    double distance_m = 0.0;
};

/// Rate of the first over rate of the second.
/// Range:   distances > 0
/// Source:  METHOD 6.14 (Clopper & Pearson 1934, given the sum of both counts)
ExactRatio compare_rates(const CountedDistance& first, const CountedDistance& second);

/// Chance that limits of the ratio exclude 1 when rates are such that these flats are to
/// be expected.
struct PlannedCounts {
    double first_m = 0.0, second_m = 0.0;          // distances
    double first_flats = 0.0, second_flats = 0.0;  // expected
};
double compute_chance_to_tell(const PlannedCounts& planned);

/// Distance to add to both until a rate twice that of the reference would be told from it
/// four times in five; infinite beyond a million km.
/// Source:  METHOD 6.15
double find_distance_to_tell(double reference_m, double other_m, double rate_per_m);

}  // namespace flattail::evidence
