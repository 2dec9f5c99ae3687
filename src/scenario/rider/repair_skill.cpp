#include "scenario/rider/repair_skill.h"

#include "scenario/values/table.h"

namespace flattail::scenario {

std::optional<double> find_repair_median_s(const input::Node& repair) {
    constexpr double kSecondsPerMinute = 60.0;
    if (!repair.is(input::NodeKind::kString)) return std::nullopt;
    for (const Skill& skill : kSkills) {
        if (fold_case(repair.text) == skill.word) {
            return skill.minutes * kSecondsPerMinute;
        }
    }
    return std::nullopt;
}

}  // namespace flattail::scenario
