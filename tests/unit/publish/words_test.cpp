#include "publish/words.h"

#include <cmath>
#include <limits>

#include "flattail/publish.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::publish;

namespace {

constexpr double kNoFinish = std::numeric_limits<double>::infinity();
constexpr double kManyDays = 100000.0;

}  // namespace

TEST_CASE("times read as hours, minutes and seconds") {
    CHECK(format_duration(9380.0) == "2:36:20");
    CHECK(format_duration(2180.4) == "36:20");
    CHECK(format_duration(59.6) == "1:00");
    CHECK(format_duration(3599.6) == "1:00:00");
    CHECK(format_duration(0.0) == "0:00");
    CHECK(format_duration(36000.0) == "10:00:00");
    CHECK(format_duration(kNoFinish) == "no finish");
    CHECK(format_duration_range({9029.0, 9804.0}) == "2:30:29-2:43:24");
    CHECK(format_duration_range({9029.0, kNoFinish}) == "2:30:29-no finish");
}

TEST_CASE("differences carry a sign unless they round to nothing") {
    CHECK(format_difference(-82.3) == "-1:22");
    CHECK(format_difference(2.0) == "+0:02");
    CHECK(format_difference(0.4) == "0:00");
    CHECK(format_difference(-0.4) == "0:00");
    CHECK(format_difference(-3725.0) == "-1:02:05");
    CHECK(format_difference_range({-130.0, -45.0}) == "-2:10 to -0:45");
}

TEST_CASE("lengths of time are spelled with their units") {
    CHECK(format_span(3600.0) == "1 h");
    CHECK(format_span(300.0) == "5 min");
    CHECK(format_span(15.0) == "15 s");
    CHECK(format_span(450.0) == "7 min 30 s");
    CHECK(format_span(0.0) == "0 s");
}

TEST_CASE("computing errors are rounded up, never down to nothing") {
    CHECK(format_time_error(0.0) == "under 1 s");
    CHECK(format_time_error(1.01) == "2 s");
    CHECK(format_time_error(59.5) == "1:00");
    CHECK(format_time_error(124.0) == "2:04");
}

TEST_CASE("thousands are separated") {
    CHECK(format_count(0) == "0");
    CHECK(format_count(999) == "999");
    CHECK(format_count(1000) == "1,000");
    CHECK(format_count(100000) == "100,000");
    CHECK(format_count(-1234567) == "-1,234,567");
}

TEST_CASE("chances show one decimal only where it means something") {
    CHECK(format_out_of_100({0.36, 0.001}, kManyDays) == "36");
    CHECK(format_out_of_100({0.040, 0.0004}, kManyDays) == "4.0");
    CHECK(format_out_of_100({0.0996, 0.0004}, kManyDays) == "10");
    CHECK(format_out_of_100({0.04, 0.011}, 300.0) == "4");
    CHECK(format_out_of_100({0.993, 0.0004}, kManyDays) == "99.3");
}

TEST_CASE("a rare event is never printed as none, a sure one never as all") {
    CHECK(format_out_of_100({0.0003, 0.00001}, kManyDays) == "<0.1");
    CHECK(format_out_of_100({0.9997, 0.00001}, kManyDays) == ">99.9");
    CHECK(format_out_of_100({0.003, 0.006}, 80.0) == "<1");
    CHECK(format_out_of_100({0.997, 0.006}, 80.0) == ">99");
    for (double chance = 1e-7; chance < 1.0; chance *= 1.07) {
        const std::string text = format_out_of_100({chance, chance / 50.0}, kManyDays);
        CHECK(text != "0.0");
        CHECK(text != "0");
        CHECK(text != "100");
    }
}

TEST_CASE("what was never seen is bounded by the rule of three") {
    // Hanley and Lippman-Hand 1983: 0 in n days leaves up to 3 / n, 95 %.
    CHECK(format_out_of_100({0.0, 0.0}, 100000.0) == "<0.1");
    CHECK(format_out_of_100({0.0, 0.0}, 1000.0) == "<0.3");
    CHECK(format_out_of_100({0.0, 0.0}, 64.0) == "<5");
    CHECK(format_out_of_100({1.0, 0.0}, 64.0) == ">95");
    // The exact limit solves (1 - p)^n = .05; the printed one must not be below it.
    for (const double days : {64.0, 300.0, 1000.0, 2999.0}) {
        const std::string text = format_out_of_100({0.0, 0.0}, days);
        CHECK(std::stod(text.substr(1)) >= 100.0 * (1.0 - std::pow(0.05, 1.0 / days)));
    }
}

TEST_CASE("rare chances read as one in so many, with two figures") {
    CHECK(format_one_in(1.0 / 24.2) == "1 in 24");
    CHECK(format_one_in(1.0 / 159.0) == "1 in 160");
    CHECK(format_one_in(1.0 / 3049.0) == "1 in 3,000");
    CHECK(format_one_in(1.0 / 123456.0) == "1 in 120,000");
    CHECK(format_one_in(0.62) == "62 in 100");
    CHECK(format_one_in(0.3) == "30 in 100");
    CHECK(format_one_in(0.099) == "1 in 10");
    CHECK(format_one_in(1.0) == "100 in 100");
}

TEST_CASE("pressures are printed in both units") {
    // NIST SP 811: 1 psi = 6894.757 Pa.
    CHECK(format_pressure(68.0 * 6894.757) == "68 psi (4.7 bar)");
    CHECK(format_pressure(5.0e5) == "73 psi (5.0 bar)");
}

TEST_CASE("dates carry their day of the week") {
    // ISO 8601 examples and well-known days: 1970-01-01 was a Thursday, 2000-01-01 a
    // Saturday, 2000-02-29 a Tuesday.
    CHECK(format_date("1970-01-01") == "Thu 1 January");
    CHECK(format_date("2000-01-01") == "Sat 1 January");
    CHECK(format_date("2000-02-29") == "Tue 29 February");
    CHECK(format_date("2026-06-14") == "Sun 14 June");
}

TEST_CASE("a date that is none comes back as it is") {
    for (const char* text : {"", "in June", "2026-13-01", "2026-06-1x", "2026/06/14"}) {
        CHECK(format_date(text) == text);
    }
}

TEST_CASE("clocks count on past midnight") {
    CHECK(format_clock(8 * 3600 + 5 * 60) == "08:05");
    CHECK(format_clock(8 * 3600 + 5 * 60 + 7) == "08:05:07");
    CHECK(format_clock(86400 + 90 * 60) == "01:30 next day");
}

TEST_CASE("a race's name becomes one folder and never a path") {
    CHECK(name_directory("Three Herons Middle, bike leg") ==
          "three-herons-middle-bike-leg");
    CHECK(name_directory("../../etc") == "etc");
    CHECK(name_directory("/") == "race");
    CHECK(name_directory("") == "race");
    CHECK(name_directory("Übung 1") == "Übung-1");
    const std::string cut = name_directory(std::string(79, 'a') + "\u00E4bc");
    CHECK(cut == std::string(79, 'a'));
}
