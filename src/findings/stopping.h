// When have enough race days been ridden?
#pragma once

#include <cstddef>
#include <cstdint>

namespace flattail::findings {

/// First look; then at every doubling. Fewer looks cost days, more looks cost coverage.
/// Assumption; the coverage after stopping is tested.
inline constexpr std::uint64_t kFirstLookDays = 4096;

struct StoppingRule {
    double within = 0;  ///< wanted half-width of the 95 % interval, in the figure's unit
    std::uint64_t most_days = 0;
    std::uint64_t first_look_days = kFirstLookDays;
};

enum class StoppingReason { kGoOn, kPreciseEnough, kMostDaysReached };

/// Days at which to look next: first_look_days x 2^k beyond days, at most most_days.
std::uint64_t next_look(const StoppingRule& rule, std::uint64_t days);

/// Verdict of a look. Depends on the look alone, so neither threads nor blocks move it.
/// An infinite or undefined half-width never stops; within 0 never does either.
/// Source: METHOD 10.24 (after JCGM 101:2008, 7.9)
StoppingReason decide_stopping(const StoppingRule& rule, std::uint64_t days,
                               double half_width);

}  // namespace flattail::findings
