// Words of rules that others look for.
#pragma once

namespace flattail::study {

/// Verdict::rule when setups are compared by their chance to finish.
inline constexpr const char* kFinishRule = "chance to finish";

}  // namespace flattail::study
