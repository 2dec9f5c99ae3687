#include "publish/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "base/expects.h"
#include "base/problem_list.h"
#include "flattail/publish.h"

namespace flattail {

std::string suggest_name(const std::string& word, const std::vector<std::string>& known) {
    return base::find_nearest_name(word, known);
}

}  // namespace flattail

namespace flattail::publish {

namespace {

constexpr double kSecondsPerDay = 86400.0;
// NIST SP 811, appendix B.8: 1 psi = 6.894757 kPa.
constexpr double kPascalPerPsi = 6894.757;
constexpr double kPascalPerBar = 1.0e5;
// 95 % limit of a count that stayed 0 in n days: 3 / n (Hanley and Lippman-Hand 1983).
constexpr double kRuleOfThree = 3.0;
// Above this standard error (per 100 days) a decimal says nothing. Assumption: half of
// the last whole digit.
constexpr double kDecimalError = 0.5;

struct Clock {
    std::int64_t hours, minutes, seconds;
};

Clock split_seconds(double time_s) {
    const std::int64_t whole = std::llround(time_s);
    return {whole / 3600, whole / 60 % 60, whole % 60};
}

std::string join_clock(const Clock& clock) {
    if (clock.hours > 0) {
        return fmt::format("{}:{:02}:{:02}", clock.hours, clock.minutes, clock.seconds);
    }
    return fmt::format("{}:{:02}", clock.minutes, clock.seconds);
}

// The smallest of 0.1, 0.2, ..., 0.9, 1, 2, ... that is not below a bound out of 100.
std::string format_bound(double bound) {
    if (bound <= 0.1) return "0.1";
    return bound <= 0.9 ? fmt::format("{:.1f}", std::ceil(bound * 10.0) / 10.0)
                        : fmt::format("{:.0f}", std::ceil(bound));
}

double round_to_figures(double value, int figures) {
    const double step = std::pow(10.0, std::floor(std::log10(value)) + 1.0 - figures);
    return std::round(value / step) * step;
}

// 0 = Sunday, Gregorian calendar (ISO 8601). Source: Sakamoto's form of Zeller 1887.
int find_weekday(int year, int month, int day) {
    constexpr std::array<int, 12> kShift{0, 3, 2, 5, 0, 3, 5, 1, 4, 6, 2, 4};
    const int y = month < 3 ? year - 1 : year;
    return (y + y / 4 - y / 100 + y / 400 + kShift[static_cast<std::size_t>(month - 1)] +
            day) %
           7;
}

// Digits of `text` from `first`, or -1.
int read_digits(const std::string& text, std::size_t first, std::size_t count) {
    int value = -1;
    const char* begin = text.data() + first;
    const auto [end, error] = std::from_chars(begin, begin + count, value);
    return error == std::errc{} && end == begin + count ? value : -1;
}

}  // namespace

const char* name_certainty(Certainty certainty) {
    switch (certainty) {
        case Certainty::kFirm:
            return "FIRM";
        case Certainty::kLeaning:
            return "LEANING";
        case Certainty::kTossUp:
            break;
    }
    return "TOSS-UP";
}

std::string format_duration(double time_s) {
    if (std::isinf(time_s)) return "no finish";
    FLATTAIL_EXPECTS(time_s >= 0.0);
    return join_clock(split_seconds(time_s));
}

std::string format_difference(double difference_s) {
    if (std::isinf(difference_s)) return "no finish";
    const std::string size = join_clock(split_seconds(std::abs(difference_s)));
    if (std::llround(std::abs(difference_s)) == 0) return size;
    return fmt::format("{}{}", difference_s < 0.0 ? '-' : '+', size);
}

std::string format_difference_range(const Interval& range_s) {
    return fmt::format("{} to {}", format_difference(range_s.low),
                       format_difference(range_s.high));
}

std::string format_duration_range(const Interval& range_s) {
    if (std::isinf(range_s.low)) return "no finish";
    return fmt::format("{}-{}", format_duration(range_s.low),
                       format_duration(range_s.high));
}

std::string format_span(double span_s) {
    const Clock clock = split_seconds(span_s);
    std::string text;
    const auto add = [&text](std::int64_t number, const char* unit) {
        if (number == 0) return;
        text += fmt::format("{}{} {}", text.empty() ? "" : " ", number, unit);
    };
    add(clock.hours, "h");
    add(clock.minutes, "min");
    add(clock.seconds, "s");
    return text.empty() ? "0 s" : text;
}

std::string format_time_error(double error_s) {
    if (error_s < 1.0) return "under 1 s";
    const double rounded_up = std::ceil(error_s);
    return rounded_up < 60.0 ? fmt::format("{:.0f} s", rounded_up)
                             : format_duration(rounded_up);
}

std::string format_count(std::int64_t count) {
    std::string digits = fmt::format("{}", count);
    const std::size_t sign = count < 0 ? 1 : 0;
    for (std::size_t at = digits.size(); at > sign + 3; at -= 3) {
        digits.insert(at - 3, 1, ',');
    }
    return digits;
}

std::string format_out_of_100(const Figure& chance, double effective_days) {
    FLATTAIL_EXPECTS(effective_days > 0.0);
    const double unseen = std::min(100.0, 100.0 * kRuleOfThree / effective_days);
    if (chance.value <= 0.0) return fmt::format("<{}", format_bound(unseen));
    if (chance.value >= 1.0) {
        return unseen <= 0.1 ? ">99.9" : fmt::format(">{:.0f}", std::floor(100 - unseen));
    }
    const double hundred = 100.0 * chance.value;
    if (100.0 * chance.standard_error >= kDecimalError) {
        if (hundred < 0.5) return "<1";
        if (hundred >= 99.5) return ">99";
        return fmt::format("{:.0f}", hundred);
    }
    if (hundred < 0.05) return "<0.1";
    if (hundred >= 99.95) return ">99.9";
    const bool is_extreme = hundred < 9.95 || hundred >= 99.0;
    return fmt::format("{:.{}f}", hundred, is_extreme ? 1 : 0);
}

std::string format_one_in(double chance) {
    FLATTAIL_EXPECTS(chance > 0.0);
    // Whole numbers are too coarse here: "1 in 2" would stand for .4 to .67.
    if (chance > 0.1) return fmt::format("{:.0f} in 100", 100.0 * chance);
    return fmt::format("1 in {}",
                       format_count(std::llround(round_to_figures(1.0 / chance, 2))));
}

std::string format_pressure(double pressure_pa) {
    return fmt::format("{:.0f} psi ({:.1f} bar)", pressure_pa / kPascalPerPsi,
                       pressure_pa / kPascalPerBar);
}

std::string format_distance(double distance_m) {
    return fmt::format("{:.1f} km", distance_m / 1000.0);
}

std::string format_date(const std::string& iso_date) {
    constexpr std::array<const char*, 12> kMonths{
        "January", "February", "March",     "April",   "May",      "June",
        "July",    "August",   "September", "October", "November", "December"};
    constexpr std::array<const char*, 7> kDays{"Sun", "Mon", "Tue", "Wed",
                                               "Thu", "Fri", "Sat"};
    if (iso_date.size() != 10 || iso_date[4] != '-' || iso_date[7] != '-') {
        return iso_date;
    }
    const int year = read_digits(iso_date, 0, 4);
    const int month = read_digits(iso_date, 5, 2);
    const int day = read_digits(iso_date, 8, 2);
    if (year < 0 || month < 1 || month > 12 || day < 1 || day > 31) return iso_date;
    return fmt::format("{} {} {}",
                       kDays[static_cast<std::size_t>(find_weekday(year, month, day))],
                       day, kMonths[static_cast<std::size_t>(month - 1)]);
}

std::string format_clock(double clock_s) {
    const double in_day_s = std::fmod(clock_s, kSecondsPerDay);
    // A start is given to the minute; seconds only when there are some.
    const Clock clock = split_seconds(in_day_s);
    std::string text = fmt::format("{:02}:{:02}", clock.hours, clock.minutes);
    if (clock.seconds > 0) text += fmt::format(":{:02}", clock.seconds);
    if (clock_s >= kSecondsPerDay) text += " next day";
    return text;
}

}  // namespace flattail::publish
