// How a ride may end.
#pragma once

#include <cstddef>
#include <cstdint>

namespace flattail::ride {

/// How a ride ended. Everything but kFinished is a day without a finish.
enum class Ending : std::uint8_t {
    kFinished = 0,
    kNoSpare,        // went flat once more than the kit could mend
    kCannotRepair,   // the rider does not repair, and no help came
    kTyreDestroyed,  // beyond a tube, and no help came
    kOverCutoff      // past the first of Race::cutoffs; those past the others follow
};

/// The ending of a ride that came too late to one of Race::cutoffs.
constexpr Ending end_at_cutoff(std::size_t cutoff) {
    return static_cast<Ending>(static_cast<std::size_t>(Ending::kOverCutoff) + cutoff);
}
constexpr bool is_over_cutoff(Ending ending) { return ending >= Ending::kOverCutoff; }

}  // namespace flattail::ride
