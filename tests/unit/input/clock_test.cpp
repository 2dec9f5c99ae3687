#include "input/units/clock.h"

#include "support/catch.h"

using namespace flattail::input;

TEST_CASE("times of day are read with and without a date") {
    CHECK(parse_clock("08:05")->second_of_day == 29100);
    CHECK(parse_clock("8:05")->second_of_day == 29100);
    CHECK(parse_clock("23:59:59.5")->second_of_day == 86399.5);
    CHECK_FALSE(parse_clock("06:10")->date);
    const auto start = parse_clock(" 2026-06-14 08:05 ");
    REQUIRE(start);
    using namespace std::chrono;
    CHECK(start->date == year_month_day(year(2026), month(6), day(14)));
    CHECK(start->second_of_day == 29100);
    CHECK(parse_clock("2026-06-14T08:05:00")->date == start->date);
    CHECK(parse_date("2024-02-29"));
}

TEST_CASE("a time of day that cannot be understood says why") {
    const std::vector<std::pair<std::string, std::string>> cases = {
        {"8.05", "\"8.05\" is no time of day"},
        {"24:00", "\"24:00\" is no time of day"},
        {"08:60", "\"08:60\" is no time of day"},
        {"", "\"\" is no time of day"},
        {"8:05 am", "\"8:05 am\" is a 12-hour time (a 24-hour time is wanted)"},
        {"2026-06-14", "\"2026-06-14\" has no time of day"},
        {"2026-02-30 08:05", "\"2026-02-30 08:05\" names a day that does not exist"},
        {"2026-6-14 08:05", "\"2026-6-14 08:05\" is no date and time"},
        {"2026-06-14T08:05:00Z",
         "\"2026-06-14T08:05:00Z\" has a time zone (race times are "
         "local)"},
        {"2026-06-14T08:05:00+02:00",
         "\"2026-06-14T08:05:00+02:00\" has a time zone (race times are local)"},
        {"08:05 sharp", "\"08:05 sharp\" is no time of day"},
    };
    for (const auto& [text, what] : cases) {
        const auto clock = parse_clock(text);
        REQUIRE_FALSE(clock);
        CHECK(clock.refusal().what == what);
        CHECK(clock.refusal().hint == "write \"2026-06-14 08:05\", or \"08:05\" alone");
    }
    CHECK(parse_date("14.6.2026").refusal().what == "\"14.6.2026\" is no date");
    CHECK(parse_date("2025-02-29").refusal().what ==
          "\"2025-02-29\" is a day that does not exist");
}

TEST_CASE("instants count seconds since 1970 as POSIX defines them") {
    // POSIX.1-2017, 4.16: seconds since the Epoch; 946684800 is 2000-01-01T00:00:00Z.
    CHECK(*parse_utc_time("1970-01-01T00:00:00Z") == 0);
    CHECK(*parse_utc_time("2000-01-01T00:00:00Z") == 946684800);
    CHECK(*parse_utc_time("2000-01-01T00:00:00") == 946684800);
    CHECK(*parse_utc_time("2000-01-01T02:00:00+02:00") == 946684800);
    CHECK(*parse_utc_time("1999-12-31T18:30:00-05:30") == 946684800);
    CHECK(*parse_utc_time("2000-01-01T00:00:00.250Z") == 946684800.25);
    for (const char* bad :
         {"2000-01-01", "2000-01-01 00:00:00Z", "2000-13-01T00:00:00Z",
          "2000-01-01T00:00:00+2", "2000-01-01T00:00:00 Z", "yesterday"}) {
        CHECK_FALSE(parse_utc_time(bad));
    }
}
