// The words of a log: days, inners, tyres, yes and no.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "physics/flat_hazard.h"

namespace flattail::evidence {

/// "2026-06-14" or "14.6.2026", as spreadsheets save it. A date with slashes is refused:
/// it is read both ways round.
std::optional<std::chrono::year_month_day> read_day(std::string_view text);
std::string write_day(std::chrono::year_month_day day);

/// The name that a scenario has for an inner: "Latex tube" is "latex"; other words stay.
std::string name_inner(const std::string& word);
/// True for inners that everyone knows.
bool is_known_inner(const std::string& name);

/// The kind in "tough 30 mm"; nothing for a tyre of the user's own.
std::optional<physics::TyreKind> find_tyre_kind(const std::string& words);
const char* name_tyre_kind(physics::TyreKind kind);

/// "yes" and "wet" are true, "no" and "dry" false; nothing for other words.
std::optional<bool> read_wet(const std::string& word);

}  // namespace flattail::evidence
