// The words for who repairs, and what each means.
#pragma once

#include <array>
#include <cstddef>
#include <optional>

#include "input/toml/document.h"

namespace flattail::scenario {

struct Skill {
    const char* word;
    double minutes;       // median of a tube changed, front wheel
    double fail_percent;  // first try
};

// Repair: common practice, 9 in 10 within 30 %. First tries that fail: assumption, within
// a factor of 2.
inline constexpr std::array<Skill, 4> kSkills = {
    {{"practised", 5, 4}, {"ordinary", 8, 12}, {"slow", 14, 25}, {"cannot", 8, 12}}};
inline constexpr std::size_t kUsualSkill = 1;
inline constexpr std::size_t kCannot = 3;

/// The repair time that a word of `rider.repair` stands for.
std::optional<double> find_repair_median_s(const input::Node& repair);

}  // namespace flattail::scenario
