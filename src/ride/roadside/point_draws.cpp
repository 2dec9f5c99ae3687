#include "ride/roadside/point_draws.h"

namespace flattail::ride {

namespace {

// Two streams, each with rows of draws per point. Numbers never change once released.
constexpr std::uint32_t kRepairStream = sampling::hash_input_name("flat.repair");
constexpr std::uint32_t kRepairRow = 16;
constexpr std::uint32_t kFirstTries = 6;  // of a tube, in the first stream
constexpr std::uint32_t kRoadsideStream = sampling::hash_input_name("flat.roadside");
constexpr std::uint32_t kRoadsideRow = 64;

struct Slot {
    bool in_repair;
    std::uint32_t draw;
};

Slot find_tube_slot(std::uint32_t attempt, std::uint32_t which) {
    if (attempt < kFirstTries) return {true, 3 + 2 * attempt + which};
    return {false, 20 + 2 * (attempt - kFirstTries) + which};
}

Slot find_slot(Chance chance, std::uint32_t attempt) {
    switch (chance) {
        case Chance::kSealant:
            return {true, 0};
        case Chance::kTyre:
            return {true, 1};
        case Chance::kHelp:
            return {true, 2};
        case Chance::kTubeLuck:
            return find_tube_slot(attempt, 0);
        case Chance::kTubeHolds:
            return find_tube_slot(attempt, 1);
        case Chance::kSlow:
            return {false, 0};
        case Chance::kHole:
            return {false, 1};
        case Chance::kBoot:
            return {false, 2};
        case Chance::kCan:
            return {false, 3};
        case Chance::kPlugLuck:
            return {false, 4 + 2 * attempt};
        case Chance::kPlugHolds:
            return {false, 5 + 2 * attempt};
        case Chance::kPatchLuck:
            return {false, 12 + 2 * attempt};
        case Chance::kPatchHolds:
            return {false, 13 + 2 * attempt};
    }
    return {false, kRoadsideRow - 1};
}

}  // namespace

double PointDraws::uniform(Chance chance, std::uint32_t attempt) const {
    const Slot slot = find_slot(chance, attempt);
    const std::uint32_t row = slot.in_repair ? kRepairRow : kRoadsideRow;
    const std::uint32_t stream = slot.in_repair ? kRepairStream : kRoadsideStream;
    return sampling::draw_uniform({seed_, stream, day_, key_ * row + slot.draw});
}

}  // namespace flattail::ride
