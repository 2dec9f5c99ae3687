// The sizes that all pictures are drawn in, and what else they share.
#pragma once

#include <string>

#include "flattail/findings.h"
#include "publish/pictures/script.h"

namespace flattail::publish {

inline constexpr double kPad_px = 20.0;
inline constexpr double kWide_px = 720.0;
inline constexpr double kPhone_px = 380.0;
inline constexpr double kWideType_px = 14.0;
inline constexpr double kPhoneType_px = 14.0;

void set_sizes(ScriptSettings& s);

/// What titles begin with.
std::string name_race(const std::string& race_name);
std::string name_race(const Findings& findings);

}  // namespace flattail::publish
