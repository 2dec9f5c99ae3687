// Days around a race.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace flattail::publish {

/// Days since 1970-01-01 of "2026-06-14"; nothing for any other text.
/// Source: ISO 8601; days by Hinnant's civil calendar algorithm (public domain)
std::optional<std::int64_t> count_days_to(const std::string& iso_date);

/// "Thursday" for the day so many days before; without a date, "3 days before the race",
/// "the day before the race", "race day".
std::string name_day_before(const std::string& iso_date, int days);

/// "Sunday 14 June 2026"; any other text comes back as it is.
std::string format_long_date(const std::string& iso_date);

}  // namespace flattail::publish
