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
    {"repair.car_change", "wheel change by a following car", kTime, kSecond, kPositive,
     kLuck, 0, 3600, "write a time like \"40 s\"", by_factors(25, 40, 75)},
    {"repair.without_levers", "by hand / with levers", kNumber, kNoUnit, kPositive,
     kKnowledge, 1, 5, "write a factor like 1.2", certainly(1.2)},
    {"repair.top_up", "stopping to fill a tube that loses air slowly", kTime, kSecond,
     kPositive, kKnowledge, 0, 1800, "write a time like \"90 s\"", certainly(90)},
    {"repair.soft_noticed", "a soft tyre is noticed at", kPressure, kPsi, kPositive,
     kKnowledge, 22, 60, "write a gauge pressure like \"29 psi\"", certainly(29)},
    {"repair.mini_pumping", "a mini pump takes longer than a cartridge by", kTime,
     kSecond, kPositive, kKnowledge, 0, 1800, "write a time like \"3 min\"",
     certainly(180)},
    {"repair.mini_pump_reaches", "a mini pump reaches", kPressure, kPsi, kPositive,
     kKnowledge, 25, 120, "write a pressure like \"60 psi\"", certainly(60, kCommon)},
    {"repair.pumping", "a frame pump takes longer than a cartridge by", kTime, kSecond,
     kPositive, kKnowledge, 0, 1800, "write a time like \"90 s\"", certainly(90)},
    {"repair.plug_holds", "a plug holds", kProbability, kPercent, kChance, kKnowledge, 0,
     100, "write a chance like \"75 %\"", evenly(50, 75, 90)},
    {"repair.plugging", "time to plug a tyre and fill it", kTime, kSecond, kPositive,
     kKnowledge, 0, 3600, "write a time like \"2 min\"", certainly(120)},
    {"repair.patch_holds", "a patch holds", kProbability, kPercent, kChance, kKnowledge,
     0, 100, "write a chance like \"85 %\"", evenly(60, 85, 95)},
    {"repair.patching", "finding a hole and patching it takes", kTime, kSecond, kPositive,
     kKnowledge, 0, 3600, "write a time like \"6 min\"", certainly(360)},
    {"repair.can_closes", "a sealant can closes a cut", kProbability, kPercent, kChance,
     kKnowledge, 0, 100, "write a chance like \"50 %\"", evenly(25, 50, 75)},
    {"repair.canning", "emptying a sealant can takes", kTime, kSecond, kPositive,
     kKnowledge, 0, 3600, "write a time like \"2 min\"", certainly(120)},
    {"repair.boot_saves", "destroyed tyres that a boot saves", kProbability, kPercent,
     kChance, kKnowledge, 0, 100, "write a chance like \"60 %\"", evenly(40, 60, 80)},
    {"repair.booting", "putting in a boot takes longer by", kTime, kSecond, kPositive,
     kKnowledge, 0, 3600, "write a time like \"1 min\"", certainly(60)},
    {"preparation.gauge", "gauge of the pump, off the truth", kPressure, kPsi, kSigned,
     kLuck, -15, 15,
     "write \"own\", \"stranger's\" or a pressure within which 9 in 10 lie",
     evenly(-2, 0, 2, kCommon)},
};

}  // namespace

std::span<const DefaultRow> repair_rows() { return kRows; }

}  // namespace flattail::scenario
