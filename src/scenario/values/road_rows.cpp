// What is used of a road when nobody states it.
#include "course/request.h"
#include "scenario/values/default_rows.h"

namespace flattail::scenario {

namespace {

using enum Scale;
using enum Layer;
using enum input::Dimension;

constexpr Origin kCommon = Origin::kCommonPractice;

constexpr DefaultRow kRows[] = {
    {"road.shelter", "rider wind / wind at 10 m", kNumber, kNoUnit, kPositive, kKnowledge,
     0, 1.5, "write \"open\", \"hedged\", \"wood\" or a number like 0.65",
     certainly(course::kOpenShelter)},
    {"road.shelter_error", "shelter off the truth, 9 in 10 within", kRatio, kPercent,
     kChance, kKnowledge, 0, 90, "write a share like \"23 %\"", certainly(23)},
    {"road.debris", "cuts / those of an ordinary road", kNumber, kNoUnit, kPositive,
     kKnowledge, 0, 50, "write a factor like 2", certainly(1)},
    {"road.speed_cap", "highest speed", kSpeed, kKilometrePerHour, kPositive, kKnowledge,
     5, 130, "write a speed like \"40 km/h\"", certainly(130)},
    {"road.crr.smooth", "Crr on a smooth road", kRatio, kNoUnit, kPositive, kKnowledge,
     .001, .05, "write a coefficient like 0.0038",
     by_factors(.0038 * .85, .0038, .0038 * 1.15, kCommon)},
    {"road.crr.ordinary", "Crr on an ordinary road", kRatio, kNoUnit, kPositive,
     kKnowledge, .001, .05, "write a coefficient like 0.0045",
     by_factors(.0045 * .85, .0045, .0045 * 1.15, kCommon)},
    {"road.crr.coarse", "Crr on a coarse road", kRatio, kNoUnit, kPositive, kKnowledge,
     .001, .05, "write a coefficient like 0.006",
     by_factors(.0060 * .85, .0060, .0060 * 1.15, kCommon)},
    {"road.crr.cobbles", "Crr on cobbles", kRatio, kNoUnit, kPositive, kKnowledge, .001,
     .08, "write a coefficient like 0.011", by_factors(.008, .011, .018, kCommon)},
    {"road.wet_rolling", "rolling on a wet road / dry", kNumber, kNoUnit, kPositive,
     kKnowledge, .5, 2, "write a factor like 1.05", by_factors(1.0, 1.05, 1.15)},
    {"road.wet_speed", "corner speed on a wet road / dry", kNumber, kNoUnit, kPositive,
     kKnowledge, .3, 1, "write a factor like 0.8", certainly(.8)},
    {"road.lateral_limit", "sideways acceleration in corners", kAcceleration,
     kMetrePerSecondSquared, kPositive, kKnowledge, 1, 12,
     "write an acceleration like \"4 m/s2\"", certainly(course::kLateralLimit_m_s2)},
    {"road.braking", "braking before corners", kAcceleration, kMetrePerSecondSquared,
     kPositive, kKnowledge, .5, 8, "write a deceleration like \"3 m/s2\"",
     certainly(course::kBrake_m_s2)},
    {"road.descent_cap", "speed above which the rider brakes", kSpeed, kKilometrePerHour,
     kPositive, kKnowledge, 20, 130, "write a speed like \"75 km/h\"",
     certainly(course::kDescentCap_m_s * 3.6)},
};

}  // namespace

std::span<const DefaultRow> road_rows() { return kRows; }

}  // namespace flattail::scenario
