// What one ride came to.
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

struct RideResult {
    double time_s =
        0.0;  // without a finish: what the ride would have taken without that flat
    float lost_s = 0.0F;  // to flats: stops, waiting, getting under way again
    Ending ending = Ending::kFinished;
    std::uint8_t flats = 0;  // punctures that stopped the rider
    std::uint8_t front_flats = 0;
    std::uint8_t flats_at_speed = 0;  // above the speed that counts as dangerous
    std::uint8_t front_at_speed = 0;
    std::uint8_t sealed = 0;  // closed by sealant without a stop
    // Days ended at stops less the chances of it, over the stops that were met: zero on
    // average, since each stop adds what nobody can foresee (METHOD 10.30).
    double end_surprise = 0.0;
};

}  // namespace flattail::ride
