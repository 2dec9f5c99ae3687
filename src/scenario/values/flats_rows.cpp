// What is used of flats when nobody states it.
#include "physics/flat_hazard.h"
#include "scenario/values/default_rows.h"

namespace flattail::scenario {

namespace {

using enum Scale;
using enum Layer;
using enum input::Dimension;

constexpr Origin kCommon = Origin::kCommonPractice;

constexpr DefaultRow kRows[] = {
    {"flats.training", "flats in training", kRatePerDistance, kPerThousandKilometres,
     kPositive, kKnowledge, 0, 50,
     "write a rate like \"1 per 2500 km\" or { flats = 3, distance = \"4000 km\" }",
     by_factors(1000.0 / 6000, 1000.0 / 2500, 1, kCommon)},
    {"flats.race_factor", "flat rate racing / training", kNumber, kNoUnit, kPositive,
     kKnowledge, 0, 20, "write a factor like 0.8",
     by_factors(.4, physics::kRaceFactor, 1.3)},
    {"flats.clumping", "factor of a day's flat rate", kNumber, kNoUnit, kPositive,
     kKnowledge, 1, 5,
     "write a factor from 1 (never clumped) to 5: two days in three lie within it",
     certainly(1.8)},
    {"flats.wet_factor", "flat rate wet / dry", kNumber, kNoUnit, kPositive, kKnowledge,
     0, 20, "write a factor like 1.7", by_factors(1.1, 1.7, 3)},
    {"flats.rear_share", "share of flats at the rear", kRatio, kPercent, kChance,
     kKnowledge, 0, 100, "write a share like \"67 %\"",
     evenly(55, 100 * physics::kRearFlatShare, 80, kCommon)},
    {"flats.pinch_share", "share of flats that are pinches", kRatio, kPercent, kChance,
     kKnowledge, 0, 100, "write a share like \"12 %\"",
     by_factors(5, 100 * physics::kPinchShare, 25)},
    {"flats.slow_share", "cut tubes that lose their air slowly", kProbability, kPercent,
     kChance, kKnowledge, 0, 100, "write a share like \"25 %\"",
     evenly(10, 100 * physics::kSlowShare, 40)},
    {"flats.rough_pinch_factor", "pinches on a rough road / ordinary", kNumber, kNoUnit,
     kPositive, kKnowledge, 0, 20, "write a factor like 3", certainly(3)},
    {"flats.at_speed", "a flat counts as at speed above", kSpeed, kKilometrePerHour,
     kPositive, kKnowledge, 1, 130, "write a speed like \"40 km/h\"", certainly(40)},
};

}  // namespace

std::span<const DefaultRow> flats_rows() { return kRows; }

}  // namespace flattail::scenario
