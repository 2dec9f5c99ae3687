#include "sampling/address.h"

#include <Random123/philox.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

#include "sampling/philox.h"
#include "sampling/vector_math.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::sampling;

namespace {

std::array<std::uint32_t, 4> run_philox(std::array<std::uint32_t, 4> c,
                                        std::array<std::uint32_t, 2> k) {
    const PhiloxWords words = philox_4x32_10({c[0], c[1], c[2], c[3]}, {k[0], k[1]});
    return {words.w0, words.w1, words.w2, words.w3};
}

}  // namespace

TEST_CASE("input names are hashed by folded FNV-1a") {
    // 64-bit FNV-1a of "", "a", "foobar": cbf29ce484222325, af63dc4c8601ec8c,
    // 85944171f73967e8 (test vectors of the FNV internet draft), folded by hand.
    static_assert(hash_input_name("") == (0xCBF29CE4u ^ 0x84222325u));
    static_assert(hash_input_name("a") == (0xAF63DC4Cu ^ 0x8601EC8Cu));
    static_assert(hash_input_name("foobar") == (0x85944171u ^ 0xF73967E8u));
    CHECK(hash_input_name("power") != hash_input_name("wind"));
}

TEST_CASE("the generator gives the published known answers") {
    // Random123, kat_vectors, philox4x32 10 (Salmon et al. 2011).
    using Words = std::array<std::uint32_t, 4>;
    CHECK(run_philox({0, 0, 0, 0}, {0, 0}) ==
          Words{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8});
    const std::uint32_t all = 0xffffffff;
    CHECK(run_philox({all, all, all, all}, {all, all}) ==
          Words{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd});
    CHECK(run_philox({0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344},
                     {0xa4093822, 0x299f31d0}) ==
          Words{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1});
}

TEST_CASE("the generator agrees with its reference library everywhere it is asked") {
    std::uint32_t state = 1;
    const auto next = [&state] { return state = state * 1664525u + 1013904223u; };
    for (int i = 0; i < 10000; ++i) {
        const std::array<std::uint32_t, 4> c{next(), next(), next(), next()};
        const std::array<std::uint32_t, 2> k{next(), next()};
        r123::Philox4x32::ctr_type counter{{c[0], c[1], c[2], c[3]}};
        r123::Philox4x32::key_type key{{k[0], k[1]}};
        const auto expected = r123::Philox4x32()(counter, key);
        const auto words = run_philox(c, k);
        REQUIRE(std::equal(words.begin(), words.end(), expected.begin()));
    }
}

TEST_CASE("uniforms never reach 0 or 1 and lie symmetric about a half") {
    const double smallest = to_uniform(0, 0);
    const double largest = to_uniform(0xffffffff, 0xffffffff);
    CHECK(smallest == 0x1p-53);
    CHECK(largest == 1.0 - 0x1p-53);
    CHECK(to_uniform(0x80000000, 0) == 0.5 + 0x1p-53);
    CHECK(to_uniform(0x7fffffff, 0xffffffff) == 0.5 - 0x1p-53);
}

TEST_CASE("the address is laid out in key and counter as stated") {
    const Address address{0x1122334455667788u, 0xAABBCCDDu, 0x123456789ABCDEF1u, 7u};
    r123::Philox4x32::ctr_type counter{{0x4D5E6F78u, 0x091A2B3Cu, 0xAABBCCDDu, 7u}};
    r123::Philox4x32::key_type key{{0x55667788u, 0x11223344u}};
    const auto words = r123::Philox4x32()(counter, key);
    CHECK(draw_uniform(address) == to_uniform(words[2], words[3]));
    Address even = address;
    --even.day;
    CHECK(draw_uniform(even) == to_uniform(words[0], words[1]));
}

TEST_CASE("a block gives each day the number it has alone, on every instruction set") {
    const Stream stream{42, hash_input_name("power"), 3};
    for (const auto set : base::supported_instruction_sets()) {
        const VectorMath& math = vector_math(set);
        CAPTURE(base::name_instruction_set(set));
        for (const std::uint64_t first :
             {0ull, 64ull, 7ull, (1ull << 33) - 10, ~0ull - 70}) {
            std::vector<double> block(kLanes), listed(kLanes), scores(kLanes);
            std::vector<std::uint64_t> days(kLanes);
            for (std::size_t i = 0; i < kLanes; ++i) days[i] = first + (37 * i) % kLanes;
            math.fill_uniform(stream, first, block.data());
            math.fill_uniform_at(stream, days.data(), listed.data());
            math.fill_normal(stream, first, scores.data());
            for (std::size_t i = 0; i < kLanes; ++i) {
                const Address here{stream.seed, stream.input, first + i, stream.draw};
                const Address there{stream.seed, stream.input, days[i], stream.draw};
                REQUIRE(block[i] == draw_uniform(here));
                REQUIRE(listed[i] == draw_uniform(there));
                REQUIRE(scores[i] == draw_normal_score(here));
            }
        }
    }
}
