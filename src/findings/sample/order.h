// Sorting, the dearest step of all findings, done once per setup.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace flattail::findings {

/// Day numbers in ascending order of value; equal values keep the order of their days.
/// Range:   any value but NaN; infinities sort to the ends; fewer than 2^32 days
/// Accuracy: exact; linear time (least significant digit radix sort on the bits)
/// Source:  Knuth 1998, 5.2.5, algorithm R
std::vector<std::uint32_t> order_by_value(std::span<const double> values);

}  // namespace flattail::findings
