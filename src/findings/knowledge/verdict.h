// Which setup, and how sure over what is not known.
#pragma once

#include <cstddef>

#include "findings/knowledge/model.h"

namespace flattail::findings {

enum class Strength { kFirm, kLeaning, kTossUp };

/// Shares of knowledge that must agree with the choice. Convention of this program.
inline constexpr double kFirmShare = 0.95;
inline constexpr double kLeaningShare = 0.75;

struct VerdictRule {
    Better better = Better::kSmaller;
    double matters = 0;       ///< smaller margins are not worth acting on
    std::size_t against = 0;  ///< the setup that is on the bike now
};

struct Verdict {
    std::size_t choice = 0;     ///< best expected figure
    std::size_t runner_up = 0;  ///< second best; equal to choice if there is one setup
    /// Gain of the choice over `against`, or over the runner-up if they are the same.
    Estimate margin;
    Estimate share_agreeing;         ///< share of the draws in which the choice is best
    double share_beats_against = 0;  ///< share in which it beats the setup on the bike
    /// Graded by share_beats_against, or by share_agreeing if the choice is on the bike.
    Strength strength = Strength::kTossUp;
};

/// Also a toss-up: a margin within its own 95 % computing error.
/// Source: METHOD 10.21
Verdict reach_verdict(const KnowledgeModel& model, const KnowledgeDraws& draws,
                      const VerdictRule& rule);

/// The rule alone: margins below `matters` and shares below 75 % are a toss-up.
Strength grade(double share_agreeing, double margin, double matters);

}  // namespace flattail::findings
