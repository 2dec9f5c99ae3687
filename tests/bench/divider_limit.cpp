#include "bench/divider_limit.h"

#include <immintrin.h>

namespace flattail::bench {

namespace {

constexpr double kDividend = 1.3717421;
constexpr double kDivisor = 0.9128709;

// Four roots and eight divides with results that nobody waits for. `volatile` keeps the
// compiler from dropping or hoisting them; the processor may still overlap all of them.
// A macro, because a template would not inherit the caller's instruction set.
#define FLATTAIL_LOAD_DIVIDER(Wide, a, b)                                      \
    for (int i = 0; i < rounds; ++i) {                                         \
        for (int k = 0; k < kRootsPerRound; ++k) {                             \
            Wide root, first, second;                                          \
            asm volatile("vsqrtpd %1, %0" : "=v"(root) : "v"(a));              \
            asm volatile("vdivpd %2, %1, %0" : "=v"(first) : "v"(a), "v"(b));  \
            asm volatile("vdivpd %2, %1, %0" : "=v"(second) : "v"(b), "v"(a)); \
        }                                                                      \
    }

__attribute__((target("avx512f"))) void load_v4(int rounds) {
    const __m512d a = _mm512_set1_pd(kDividend), b = _mm512_set1_pd(kDivisor);
    FLATTAIL_LOAD_DIVIDER(__m512d, a, b)
}

__attribute__((target("avx2"))) void load_v3(int rounds) {
    const __m256d a = _mm256_set1_pd(kDividend), b = _mm256_set1_pd(kDivisor);
    FLATTAIL_LOAD_DIVIDER(__m256d, a, b)
}

#undef FLATTAIL_LOAD_DIVIDER

// Two operands: a divide writes over its dividend, which is fetched anew each time.
void load_baseline(int rounds) {
    const __m128d a = _mm_set1_pd(kDividend), b = _mm_set1_pd(kDivisor);
    for (int i = 0; i < rounds; ++i) {
        for (int k = 0; k < kRootsPerRound; ++k) {
            __m128d root, first = a, second = b;
            asm volatile("sqrtpd %1, %0" : "=x"(root) : "x"(a));
            asm volatile("divpd %1, %0" : "+x"(first) : "x"(b));
            asm volatile("divpd %1, %0" : "+x"(second) : "x"(a));
        }
    }
}

}  // namespace

int count_divider_lanes(base::InstructionSet set) {
    switch (set) {
        case base::InstructionSet::kV4:
            return 8;
        case base::InstructionSet::kV3:
            return 4;
        case base::InstructionSet::kBaseline:
            break;
    }
    return 2;
}

void load_divider(base::InstructionSet set, int rounds) {
    switch (set) {
        case base::InstructionSet::kV4:
            load_v4(rounds);
            return;
        case base::InstructionSet::kV3:
            load_v3(rounds);
            return;
        case base::InstructionSet::kBaseline:
            break;
    }
    load_baseline(rounds);
}

}  // namespace flattail::bench
