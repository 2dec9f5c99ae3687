// How often intervals hold what they promise to hold.
#pragma once

#include <cmath>
#include <cstdint>
#include <random>

#include "findings/sample/estimate.h"
#include "support/catch.h"

namespace flattail::test {

inline constexpr int kRepetitions = 6000;
/// Null: cover .95, standard error sqrt(.95 x .05 / 6000) = .0028. The bound allows one
/// part in a hundred for normal limits on skewed days, plus a little under two standard
/// errors; shrunk by a fifth, a 95 % interval holds 88.3 %, which is far outside.
inline constexpr double kCoverSlack = 0.015;
inline constexpr double kShrunk = 0.8;

struct Cover {
    int held = 0;
    int held_shrunk = 0;

    void add(const findings::Interval& limits, double value, double truth) {
        if (limits.low <= truth && truth <= limits.high) ++held;
        const double low = value - kShrunk * (value - limits.low);
        const double high = value + kShrunk * (limits.high - value);
        if (low <= truth && truth <= high) ++held_shrunk;
    }
    void add(const findings::Estimate& estimate, double truth) {
        add(findings::interval_of(estimate), estimate.value, truth);
    }
};

inline bool is_95_percent(int held) {
    const double share = static_cast<double>(held) / kRepetitions;
    return std::fabs(share - findings::kConfidence) <= kCoverSlack;
}

inline void check_cover(const Cover& cover) {
    INFO("held " << cover.held << ", shrunk " << cover.held_shrunk << " of "
                 << kRepetitions);
    CHECK(is_95_percent(cover.held));
    CHECK_FALSE(is_95_percent(cover.held_shrunk));
}

}  // namespace flattail::test
