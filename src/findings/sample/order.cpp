#include "findings/sample/order.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstddef>
#include <limits>

#include "base/expects.h"

namespace flattail::findings {
namespace {

struct Entry {
    std::uint64_t key = 0;
    std::uint32_t day = 0;
};

// Six digits of 11 bits cover the 64 bits; their counts stay in the first-level cache.
constexpr unsigned kDigitBits = 11;
constexpr unsigned kDigits = 6;
constexpr std::size_t kBuckets = std::size_t{1} << kDigitBits;
using Counts = std::array<std::array<std::uint32_t, kBuckets>, kDigits>;

// IEEE 754 doubles compare like integers once negatives are flipped whole and the rest
// get the top bit. Adding 0 makes -0 and +0 equal.
std::uint64_t sortable_bits(double value) {
    const auto bits = std::bit_cast<std::uint64_t>(value + 0.0);
    const std::uint64_t top = std::uint64_t{1} << 63;
    return (bits & top) != 0 ? ~bits : bits | top;
}

std::size_t digit_of(std::uint64_t key, unsigned digit) {
    return static_cast<std::size_t>(key >> (digit * kDigitBits)) & (kBuckets - 1);
}

bool is_one_bucket(const std::array<std::uint32_t, kBuckets>& count,
                   std::size_t entries) {
    return std::any_of(count.begin(), count.end(),
                       [entries](std::uint32_t n) { return n == entries; });
}

void scatter_by_digit(const std::vector<Entry>& from, std::vector<Entry>& to,
                      unsigned digit, const std::array<std::uint32_t, kBuckets>& count) {
    std::array<std::uint32_t, kBuckets> next{};
    std::uint32_t sum = 0;
    for (std::size_t bucket = 0; bucket < kBuckets; ++bucket) {
        next[bucket] = sum;
        sum += count[bucket];
    }
    for (const Entry& entry : from) to[next[digit_of(entry.key, digit)]++] = entry;
}

}  // namespace

std::vector<std::uint32_t> order_by_value(std::span<const double> values) {
    FLATTAIL_EXPECTS(values.size() < std::numeric_limits<std::uint32_t>::max());
    std::vector<Entry> entries(values.size());
    Counts counts{};
    for (std::size_t day = 0; day < values.size(); ++day) {
        FLATTAIL_EXPECTS(!std::isnan(values[day]));
        entries[day] = {sortable_bits(values[day]), static_cast<std::uint32_t>(day)};
        for (unsigned digit = 0; digit < kDigits; ++digit)
            ++counts[digit][digit_of(entries[day].key, digit)];
    }
    std::vector<Entry> other(values.size());
    for (unsigned digit = 0; digit < kDigits; ++digit) {
        if (is_one_bucket(counts[digit], values.size())) continue;
        scatter_by_digit(entries, other, digit, counts[digit]);
        entries.swap(other);
    }
    std::vector<std::uint32_t> order(values.size());
    std::transform(entries.begin(), entries.end(), order.begin(),
                   [](const Entry& entry) { return entry.day; });
    return order;
}

}  // namespace flattail::findings
