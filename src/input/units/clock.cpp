#include "input/units/clock.h"

#include <fmt/format.h>

#include <array>
#include <charconv>

#include "input/text/number_text.h"
#include "input/text/text_file.h"

namespace flattail::input {

namespace {

constexpr const char* kHowToClock = "write \"2026-06-14 08:05\", or \"08:05\" alone";

Refusal refuse_clock(std::string_view text, std::string_view why) {
    return {fmt::format("\"{}\" {}", text, why), kHowToClock, ""};
}

// Exactly `count` digits in front; they are taken off the text.
std::optional<int> take_digits(std::string_view& text, std::size_t count) {
    if (text.size() < count) return std::nullopt;
    int value = 0;
    for (std::size_t i = 0; i < count; ++i) {
        if (!is_digit(text[i])) return std::nullopt;
        value = 10 * value + (text[i] - '0');
    }
    text.remove_prefix(count);
    return value;
}

bool take(std::string_view& text, char wanted) {
    if (text.empty() || text[0] != wanted) return false;
    text.remove_prefix(1);
    return true;
}

struct WrittenDate {
    std::chrono::year_month_day day;
    bool complete = false;  // the right shape; the day may still not exist
};

WrittenDate take_date(std::string_view& text) {
    const auto year = take_digits(text, 4);
    if (!year || !take(text, '-')) return {};
    const auto month = take_digits(text, 2);
    if (!month || !take(text, '-')) return {};
    const auto day = take_digits(text, 2);
    if (!day) return {};
    return {std::chrono::year_month_day(std::chrono::year(*year),
                                        std::chrono::month(static_cast<unsigned>(*month)),
                                        std::chrono::day(static_cast<unsigned>(*day))),
            true};
}

// h:mm, hh:mm or hh:mm:ss with a fraction, in seconds; nothing when it has another shape.
std::optional<double> take_time(std::string_view& text) {
    auto hour =
        text.size() > 1 && text[1] == ':' ? take_digits(text, 1) : take_digits(text, 2);
    if (!hour || !take(text, ':')) return std::nullopt;
    const auto minute = take_digits(text, 2);
    if (!minute) return std::nullopt;
    double second = 0;
    if (take(text, ':')) {
        const std::size_t end = text.find_first_not_of("0123456789.");
        const std::string_view digits = text.substr(0, end);
        if (digits.size() < 2 || !is_digit(digits[0]) || !is_digit(digits[1])) {
            return std::nullopt;
        }
        const auto [stop, error] =
            std::from_chars(digits.data(), digits.data() + digits.size(), second);
        if (error != std::errc() || stop != digits.data() + digits.size())
            return std::nullopt;
        text.remove_prefix(digits.size());
    }
    if (*hour > 23 || *minute > 59 || second >= 60) return std::nullopt;
    return *hour * 3600.0 + *minute * 60.0 + second;
}

// "Z", "+02:00" or nothing, in seconds east of Greenwich.
std::optional<double> take_zone(std::string_view& text) {
    if (text.empty() || take(text, 'Z')) return 0.0;
    const double sign = text[0] == '-' ? -1 : 1;
    if (!take(text, '+') && !take(text, '-')) return std::nullopt;
    const auto hours = take_digits(text, 2);
    if (!hours || !take(text, ':')) return std::nullopt;
    const auto minutes = take_digits(text, 2);
    // XML Schema allows zones up to 14 h.
    if (!minutes || *minutes > 59 || *hours > 14) return std::nullopt;
    return sign * (*hours * 3600.0 + *minutes * 60.0);
}

Refusal refuse_leftover(std::string_view text, std::string_view leftover) {
    const std::string lower = to_lower(trim(leftover));
    if (lower == "am" || lower == "pm" || lower == "a.m." || lower == "p.m.") {
        return refuse_clock(text, "is a 12-hour time (a 24-hour time is wanted)");
    }
    if (lower.starts_with('z') || lower.starts_with('+') || lower.starts_with('-')) {
        return refuse_clock(text, "has a time zone (race times are local)");
    }
    return refuse_clock(text, "is no time of day");
}

}  // namespace

Parsed<ClockTime> parse_clock(std::string_view text) {
    text = trim(text);
    std::string_view rest = text;
    ClockTime clock;
    const bool dated = rest.size() > 4 && rest[4] == '-';
    if (dated) {
        const WrittenDate date = take_date(rest);
        if (!date.complete) return refuse_clock(text, "is no date and time");
        if (!date.day.ok()) return refuse_clock(text, "names a day that does not exist");
        if (rest.empty()) return refuse_clock(text, "has no time of day");
        if (!take(rest, 'T') && !take(rest, ' ')) {
            return refuse_clock(text, "is no date and time");
        }
        rest = trim(rest);
        clock.date = date.day;
    }
    const std::optional<double> second = take_time(rest);
    if (!second) return refuse_clock(text, "is no time of day");
    if (!rest.empty()) return refuse_leftover(text, rest);
    clock.second_of_day = *second;
    return clock;
}

Parsed<std::chrono::year_month_day> parse_date(std::string_view text) {
    text = trim(text);
    std::string_view rest = text;
    const WrittenDate date = take_date(rest);
    constexpr const char* kHowToDate = "write year-month-day as in \"2026-06-14\"";
    if (!date.complete || !rest.empty()) {
        return Refusal{fmt::format("\"{}\" is no date", text), kHowToDate, ""};
    }
    if (!date.day.ok()) {
        return Refusal{fmt::format("\"{}\" is a day that does not exist", text),
                       kHowToDate, ""};
    }
    return date.day;
}

int count_days(std::chrono::year_month_day from, std::chrono::year_month_day to) {
    return static_cast<int>(
        (std::chrono::sys_days(to) - std::chrono::sys_days(from)).count());
}

Parsed<double> parse_utc_time(std::string_view text) {
    text = trim(text);
    std::string_view rest = text;
    const Refusal refusal{fmt::format("\"{}\" is no date and time", text),
                          "write it like 2026-06-14T08:05:00Z", ""};
    const WrittenDate date = take_date(rest);
    if (!date.complete || !date.day.ok() || !take(rest, 'T')) return refusal;
    const std::optional<double> second = take_time(rest);
    if (!second) return refusal;
    const std::optional<double> zone_s = take_zone(rest);
    if (!zone_s || !rest.empty()) return refusal;
    const auto days = std::chrono::sys_days(date.day).time_since_epoch();
    return static_cast<double>(days.count()) * 86400.0 + *second - *zone_s;
}

}  // namespace flattail::input
