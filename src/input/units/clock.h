// Times of day, with or without a date, always local to the race: "2026-06-14 08:05".
#pragma once

#include <chrono>
#include <optional>
#include <string_view>

#include "input/text/refusal.h"

namespace flattail::input {

struct ClockTime {
    std::optional<std::chrono::year_month_day> date;
    double second_of_day = 0;  ///< [0, 86400)
};

/// "08:05", "08:05:30", "2026-06-14 08:05" or with a T between; no zone, no am or pm.
Parsed<ClockTime> parse_clock(std::string_view text);

/// A day alone: "2026-06-14".
Parsed<std::chrono::year_month_day> parse_date(std::string_view text);

/// Days from one day to a later one; negative to an earlier one.
int count_days(std::chrono::year_month_day from, std::chrono::year_month_day to);

/// Seconds since 1970-01-01T00:00:00Z of an XML Schema dateTime, as GPX writes it.
/// Source: W3C XML Schema 1.0 part 2, 3.2.7; without a zone it is taken as UTC (GPX 1.1).
Parsed<double> parse_utc_time(std::string_view text);

}  // namespace flattail::input
