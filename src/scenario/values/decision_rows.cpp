// What is used of the race and of the comparison when nobody states it.
#include "course/request.h"
#include "scenario/values/default_rows.h"

namespace flattail::scenario {

namespace {

using enum Scale;
using enum Layer;
using enum input::Dimension;

constexpr Origin kCommon = Origin::kCommonPractice;

constexpr DefaultRow kRows[] = {
    {"decision.matters", "a difference that matters", kTime, kSecond, kPositive,
     kKnowledge, 0, 3600, "write a time like \"15 s\"", certainly(15, kCommon)},
    {"decision.no_finish_costs", "a day without a finish costs", kTime, kMinute,
     kPositive, kKnowledge, 0, 6000, "write a time like \"1 h\"", certainly(60)},
    {"decision.losing", "losing long means", kTime, kMinute, kPositive, kKnowledge, .1,
     600, "write a time like \"5 min\"", certainly(5, kCommon)},
    {"race.swim", "swim", kTime, kMinute, kPositive, kLuck, 0, 600,
     "write a time like \"34 min\" or { low = \"31 min\", high = \"37 min\" }"},
    {"race.transition", "from the water to the bicycle", kTime, kMinute, kPositive, kLuck,
     0, 60, "write a time like \"3 min\"", by_factors(2, 3, 5)},
    {"race.official_distance", "official distance", kLength, kKilometre, kPositive,
     kKnowledge, .2, 2000, "write a length like \"90 km\"", certainly(0)},
    {"race.speed_limit", "speed limit", kSpeed, kKilometrePerHour, kPositive, kKnowledge,
     5, 130, "write a speed like \"40 km/h\"", certainly(130)},
    {"race.position_error", "error of recorded positions", kLength, kMetre, kPositive,
     kKnowledge, .1, 50, "write a length like \"3 m\"",
     certainly(course::kPositionError_m, kCommon)},
    {"race.height_error", "error of recorded heights", kLength, kMetre, kPositive,
     kKnowledge, .05, 50, "write a length like \"1.5 m\"",
     certainly(course::kHeightError_m, kCommon)},
};

}  // namespace

std::span<const DefaultRow> decision_rows() { return kRows; }

}  // namespace flattail::scenario
