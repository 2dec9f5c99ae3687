// What is used of repairs and of the pump when nobody states it.
#include "scenario/values/default_rows.h"

namespace flattail::scenario {

namespace {

using enum Scale;
using enum Layer;
using enum input::Dimension;

constexpr Origin kCommon = Origin::kCommonPractice;

constexpr DefaultRow kRows[] = {
    {"repair.first_try_fails", "first try of a repair fails", kProbability, kPercent,
     kChance, kKnowledge, 0, 100, "write a chance like \"12 %\"", by_factors(6, 12, 24)},
    {"repair.tyre_destroyed", "a flat destroys the tyre", kProbability, kPercent, kChance,
     kKnowledge, 0, 100, "write a chance like \"4 %\"", by_factors(2, 4, 8)},
    {"repair.rear_extra", "a rear wheel takes longer by", kTime, kSecond, kPositive,
     kKnowledge, 0, 1800, "write a time like \"1 min\"", certainly(60, kCommon)},
    {"repair.tubeless_factor", "tubeless to tube / tube to tube", kNumber, kNoUnit,
     kPositive, kKnowledge, .3, 5, "write a factor like 1.3", certainly(1.3, kCommon)},
    {"repair.notice", "from the flat to the brakes", kTime, kSecond, kPositive,
     kKnowledge, 0, 600, "write a time like \"5 s\"", certainly(5)},
    {"repair.help_chance", "officials reach the rider", kProbability, kPercent, kChance,
     kKnowledge, 0, 100, "write a chance like \"50 %\"", evenly(20, 50, 80)},
    {"repair.help_wait", "wait for officials", kTime, kMinute, kPositive, kLuck, 0, 600,
     "write a time like \"25 min\"", by_factors(8, 25, 70)},
    {"preparation.gauge", "gauge of the pump, off the truth", kPressure, kPsi, kSigned,
     kLuck, -15, 15,
     "write \"own\", \"stranger's\" or a pressure within which 9 in 10 lie",
     evenly(-2, 0, 2, kCommon)},
};

}  // namespace

std::span<const DefaultRow> repair_rows() { return kRows; }

}  // namespace flattail::scenario
