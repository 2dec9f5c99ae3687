#include "publish/brief/calendar.h"

#include <fmt/format.h>

#include <array>
#include <charconv>

namespace flattail::publish {

namespace {

constexpr std::array<const char*, 7> kDays{"Sunday",   "Monday", "Tuesday", "Wednesday",
                                           "Thursday", "Friday", "Saturday"};
constexpr std::array<const char*, 12> kMonths{
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};
constexpr int kWeekdayOfDay0 = 4;  // 1970-01-01 was a Thursday

struct Date {
    int year = 0, month = 0, day = 0;
};

int read_digits(const std::string& text, std::size_t first, std::size_t count) {
    int value = -1;
    const char* begin = text.data() + first;
    const auto [end, error] = std::from_chars(begin, begin + count, value);
    return error == std::errc{} && end == begin + count ? value : -1;
}

std::optional<Date> read_date(const std::string& text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
    const Date date{read_digits(text, 0, 4), read_digits(text, 5, 2),
                    read_digits(text, 8, 2)};
    if (date.year < 0 || date.month < 1 || date.month > 12 || date.day < 1 ||
        date.day > 31) {
        return std::nullopt;
    }
    return date;
}

// Years are counted from March, so that a leap day ends one; 400 years are an era.
std::int64_t count_days(const Date& date) {
    const int year = date.month > 2 ? date.year : date.year - 1;
    const int era = (year >= 0 ? year : year - 399) / 400;
    const int year_of_era = year - era * 400;
    const int from_march = (date.month + 9) % 12;
    const int day_of_year = (153 * from_march + 2) / 5 + date.day - 1;
    const int day_of_era =
        year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    return std::int64_t{era} * 146097 + day_of_era - 719468;
}

const char* name_weekday(std::int64_t day) {
    const auto weekday = ((day + kWeekdayOfDay0) % 7 + 7) % 7;
    return kDays[static_cast<std::size_t>(weekday)];
}

}  // namespace

std::optional<std::int64_t> count_days_to(const std::string& iso_date) {
    const auto date = read_date(iso_date);
    if (!date) return std::nullopt;
    return count_days(*date);
}

std::string name_day_before(const std::string& iso_date, int days) {
    if (const auto day = count_days_to(iso_date)) return name_weekday(*day - days);
    if (days == 0) return "race day";
    if (days == 1) return "the day before the race";
    return fmt::format("{} days before the race", days);
}

std::string format_long_date(const std::string& iso_date) {
    const auto date = read_date(iso_date);
    if (!date) return iso_date;
    return fmt::format("{} {} {} {}", name_weekday(count_days(*date)), date->day,
                       kMonths[static_cast<std::size_t>(date->month - 1)], date->year);
}

}  // namespace flattail::publish
