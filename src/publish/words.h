// How numbers read on every page: one place for times, counts, chances and pressures.
#pragma once

#include <cstdint>
#include <string>

#include "flattail/findings.h"

namespace flattail::publish {

/// "2:36:20"; below one hour "36:20"; an infinite time is "no finish".
/// Range:   time_s >= 0, rounded to whole seconds
std::string format_duration(double time_s);

/// "-1:22", "+0:02", "0:00": a difference of two times.
std::string format_difference(double difference_s);

/// "-2:10 to -0:45".
std::string format_difference_range(const Interval& range_s);

/// "2:30:29-2:43:24".
std::string format_duration_range(const Interval& range_s);

/// A length of time in words: "1 h", "5 min", "15 s", "7 min 30 s".
std::string format_span(double span_s);

/// A computing error rounded up: "under 1 s", "4 s", "2:05".
std::string format_time_error(double error_s);

/// "FIRM", "LEANING" or "TOSS-UP".
const char* name_certainty(Certainty certainty);

/// "100,000".
std::string format_count(std::int64_t count);

/// A chance out of 100, with one decimal where that means something: "36", "4.0", "<0.1".
/// What never happened in n days is printed as below 3 in n, its 95 % limit.
/// Range:   effective_days > 0; a chance outside [0, 1] by rounding counts as 0 or 1
/// Source:  Hanley and Lippman-Hand 1983 (rule of three)
std::string format_out_of_100(const Figure& chance, double effective_days);

/// "1 in 24", "1 in 3,000": two figures for rare things; above 1 in 10 "30 in 100".
/// Range:   chance in (0, 1]
std::string format_one_in(double chance);

/// "68 psi (4.7 bar)".
std::string format_pressure(double pressure_pa);

/// "88.4 km".
std::string format_distance(double distance_m);

/// "Sun 14 June" from "2026-06-14"; any other text comes back as it is.
std::string format_date(const std::string& iso_date);

/// "08:05"; a clock past midnight counts on into the next day, "01:30 next day".
std::string format_clock(double clock_s);

}  // namespace flattail::publish
