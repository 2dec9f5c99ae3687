// Where a random number lives: the address from which it is computed, and nothing else.
#pragma once

#include <cstdint>
#include <string_view>

namespace flattail::sampling {

/// Days ridden together: one lane of a vector loop each.
constexpr int kLanes = 64;

/// The frozen id of an input's name. Ids come from names alone, so adding an input leaves
/// the numbers of all others as they were.
/// Accuracy: never to be changed; two of n names meet with chance n^2 / 2^33
/// Source:  FNV-1a, 64 bits, xor-folded to 32 (Fowler, Noll, Vo; IETF draft-eastlake-fnv)
// Internal linkage: sources compiled for several instruction sets see this header.
static constexpr std::uint32_t hash_input_name(std::string_view name) {
    std::uint64_t hash = 0xCBF29CE484222325u;
    for (const char letter : name) {
        hash ^= static_cast<unsigned char>(letter);
        hash *= 0x00000100000001B3u;
    }
    return static_cast<std::uint32_t>(hash ^ (hash >> 32));
}

/// One number per day: what is fixed while the day runs.
struct Stream {
    std::uint64_t seed = 0;
    std::uint32_t input = 0;
    std::uint32_t draw = 0;
};

/// One number. Setup, thread, block and lane are not part of it: all setups meet the same
/// day, tuning changes nothing, and any day can be replayed alone.
struct Address {
    std::uint64_t seed = 0;
    std::uint32_t input = 0;
    std::uint64_t day = 0;
    std::uint32_t draw = 0;
};

/// The uniform number at an address, in (0, 1).
/// Accuracy: same bits as the vector loops
double draw_uniform(const Address& address);

/// The standard normal number at an address.
/// Accuracy: same bits as the vector loops
double draw_normal_score(const Address& address);

}  // namespace flattail::sampling
