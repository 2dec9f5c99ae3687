// What is used of a rider when nobody states it.
#include "scenario/values/default_rows.h"

namespace flattail::scenario {

namespace {

using enum Scale;
using enum Layer;
using enum input::Dimension;

constexpr Origin kCommon = Origin::kCommonPractice;

constexpr DefaultRow kRows[] = {
    {"rider.mass", "rider", kMass, kKilogram, kPositive, kKnowledge, 25, 250,
     "write the rider's mass without the bicycle, like \"70 kg\""},
    {"rider.bicycle", "bicycle", kMass, kKilogram, kPositive, kKnowledge, 4, 40,
     "write the bicycle's mass, like \"9.5 kg\"", evenly(8, 9.5, 11, kCommon)},
    {"rider.clothing", "clothing and bottles", kMass, kKilogram, kSigned, kKnowledge, 0,
     20, "write what is worn and carried, like \"3 kg\"", evenly(1.5, 3, 4.5, kCommon)},
    {"rider.power", "power", kPower, kWatt, kPositive, kLuck, 20, 800,
     "write the mean power of the whole ride, like \"200 W\""},
    {"rider.bad_day.chance", "chance of a bad day", kProbability, kPercent, kChance,
     kKnowledge, 0, 100, "write a chance from 0 to 1, like \"5 %\"",
     by_factors(2, 5, 10)},
    {"rider.bad_day.loss", "power lost on a bad day", kRatio, kPercent, kChance, kLuck, 0,
     60, "write a share of the power, like \"10 %\"", evenly(5, 10, 15)},
    {"rider.fade", "fade", kRatioPerTime, kPercentPerHour, kSigned, kLuck, 0, 30,
     "write the power lost per hour, like \"2 % per h\"",
     by_factors(.6, 2, 6, kCommon, "common practice, by the length of the course")},
    {"rider.fade_from", "fade begins after", kTime, kHour, kPositive, kKnowledge, 0, 48,
     "write a time like \"1 h\"", certainly(1, kCommon)},
    {"rider.drag_area", "drag area", kArea, kSquareMetre, kPositive, kKnowledge, 0.1, 0.8,
     "write CdA of rider and bicycle, like \"0.27 m2\"",
     evenly(.88 * .33, .33, 1.12 * .33, kCommon, "common practice, by position")},
    {"rider.drivetrain", "drivetrain efficiency", kRatio, kPercent, kChance, kKnowledge,
     80, 100, "write a share like \"97.6 %\"",
     certainly(97.6, Origin::kPublished, "Martin et al. 1998 (from memory)")},
    {"rider.power_variation", "slow variation of power", kRatio, kPercent, kChance,
     kKnowledge, 0, 20, "write a share like \"2 %\"", certainly(2)},
    {"repair.median", "repair time", kTime, kMinute, kPositive, kLuck, 0.2, 120,
     "write the time from standing still to riding again, like \"8 min\"",
     by_factors(5.6, 8, 10.4, kCommon)},
    {"repair.day_factor", "luck of one repair", kNumber, kNoUnit, kPositive, kLuck, 0.01,
     100, "write a factor", certainly(1, kCommon)},
};

}  // namespace

std::span<const DefaultRow> rider_rows() { return kRows; }

}  // namespace flattail::scenario
