// The counter-based generator: four 32-bit words as a pure function of counter and key.
//
// Layout (frozen):  key     = seed: low word, high word
//                   counter = day / 2: low word, high word; input id; draw number
//                   words 0, 1 of the result belong to the even day, words 2, 3 to the
//                   odd
// One evaluation serves two neighbouring days, so a block of days wastes no word.
#pragma once

#include <cstdint>

#include "base/lane_math.h"
#include "sampling/address.h"

namespace flattail::sampling {

struct PhiloxWords {
    std::uint32_t w0, w1, w2, w3;
};

struct PhiloxKey {
    std::uint32_t k0, k1;
};

/// Philox4x32-10.
/// Source:  Salmon, Moraes, Dror, Shaw 2011, "Parallel random numbers: as easy as 1, 2,
/// 3"
FLATTAIL_LANE PhiloxWords philox_4x32_10(PhiloxWords counter, PhiloxKey key) {
    constexpr std::uint32_t kMultiplier0 = 0xD2511F53u;
    constexpr std::uint32_t kMultiplier1 = 0xCD9E8D57u;
    constexpr std::uint32_t kGoldenRatio = 0x9E3779B9u;
    constexpr std::uint32_t kRootOfThreeLessOne = 0xBB67AE85u;
    constexpr int kRounds = 10;
#pragma GCC unroll 10
    for (int round = 0; round < kRounds; ++round) {
        const std::uint64_t product0 = std::uint64_t{kMultiplier0} * counter.w0;
        const std::uint64_t product1 = std::uint64_t{kMultiplier1} * counter.w2;
        counter = {static_cast<std::uint32_t>(product1 >> 32) ^ counter.w1 ^ key.k0,
                   static_cast<std::uint32_t>(product1),
                   static_cast<std::uint32_t>(product0 >> 32) ^ counter.w3 ^ key.k1,
                   static_cast<std::uint32_t>(product0)};
        key.k0 += kGoldenRatio;
        key.k1 += kRootOfThreeLessOne;
    }
    return counter;
}

/// A uniform number from two words, (m + 1/2) 2^-52 with m their upper 52 bits.
/// Range:   2^-53 to 1 - 2^-53, symmetric, every value exact; never 0 or 1
FLATTAIL_LANE double to_uniform(std::uint32_t high, std::uint32_t low) {
    const std::uint64_t mantissa = (std::uint64_t{high} << 20) | (low >> 12);
    // [1, 2) less 1 - 2^-53: exact. Scaling m + 1/2 in 53 bits would round up to 1.
    return base::lane::double_of(0x3FF0000000000000u | mantissa) - (1.0 - 0x1p-53);
}

/// The words of the two days 2 x pair and 2 x pair + 1.
FLATTAIL_LANE PhiloxWords draw_words(const Stream& stream, std::uint64_t pair) {
    return philox_4x32_10(
        {static_cast<std::uint32_t>(pair), static_cast<std::uint32_t>(pair >> 32),
         stream.input, stream.draw},
        {static_cast<std::uint32_t>(stream.seed),
         static_cast<std::uint32_t>(stream.seed >> 32)});
}

/// The uniform number of one day.
FLATTAIL_LANE double draw_uniform_of_day(const Stream& stream, std::uint64_t day) {
    const PhiloxWords words = draw_words(stream, day >> 1);
    const bool is_odd = (day & 1u) != 0;
    return to_uniform(is_odd ? words.w2 : words.w0, is_odd ? words.w3 : words.w1);
}

}  // namespace flattail::sampling
