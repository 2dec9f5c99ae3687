// The luck of one flat point: what belongs to the nail, so that every setup meets it.
#pragma once

#include <cstdint>

#include "sampling/address.h"
#include "sampling/day_block.h"

namespace flattail::ride {

/// What is drawn once for a point, or for one try of something at it.
enum class Chance : std::uint32_t {
    kSealant,
    kTyre,
    kHelp,
    kSlow,
    kHole,
    kBoot,
    kCan,
    kPlugLuck,
    kPlugHolds,
    kPatchLuck,
    kPatchHolds,
    kTubeLuck,
    kTubeHolds
};

/// Tries of one kind that have draws of their own; kits hold no more.
constexpr std::uint32_t kMostTubeTries = 20;
constexpr std::uint32_t kMostOtherTries = 4;  // plugs, patches

class PointDraws {
  public:
    PointDraws(std::uint64_t seed, const sampling::DayBlock& days,
               const sampling::FlatPoint& point)
        : seed_(seed), day_(days.first_day + point.lane), key_(point.key) {}

    /// Range: attempt below kMostTubeTries for tubes, kMostOtherTries for plugs and
    ///        patches, 0 for the rest
    double uniform(Chance chance, std::uint32_t attempt = 0) const;

  private:
    std::uint64_t seed_;
    std::uint64_t day_;
    std::uint32_t key_;
};

}  // namespace flattail::ride
