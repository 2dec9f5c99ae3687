#include "input/units/quantity.h"

#include <limits>
#include <numbers>

#include "support/catch.h"

using namespace flattail::input;

namespace {

struct Reading {
    std::string text;
    Dimension dimension;
    double value;
};

void check_close(const Reading& reading) {
    CAPTURE(reading.text);
    const Parsed<double> parsed = parse_quantity(reading.text, reading.dimension);
    REQUIRE(parsed);
    CHECK(*parsed == Approx(reading.value).epsilon(1e-14).margin(1e-15));
}

struct Refused {
    std::string text;
    Dimension dimension;
    std::string what;
    std::string hint;
};

}  // namespace

TEST_CASE("quantities are read in the ways people write them") {
    const std::vector<Reading> readings = {
        {"70 kg", Dimension::kMass, 70},
        {"70kg", Dimension::kMass, 70},
        {"  70.5   kg ", Dimension::kMass, 70.5},
        {".5 kg", Dimension::kMass, 0.5},
        {"+2.5e1 g", Dimension::kMass, 0.025},
        {"-3 m", Dimension::kLength, -3},
        {"\u22123 m", Dimension::kLength, -3},
        {"28 mm", Dimension::kLength, 0.028},
        {"13 km/h", Dimension::kSpeed, 13 / 3.6},
        {"16 C", Dimension::kTemperature, 289.15},
        {"16\u00B0C", Dimension::kTemperature, 289.15},
        {"-40 F", Dimension::kTemperature, 233.15},
        {"9 F", Dimension::kTemperatureDifference, 5},
        {"3 C", Dimension::kTemperatureDifference, 3},
        {"0.27 m2", Dimension::kArea, 0.27},
        {"0.08 kg m2", Dimension::kInertia, 0.08},
        {"60 ml", Dimension::kVolume, 60e-6},
        {"-0.5", Dimension::kNumber, -0.5},
        {"1.3", Dimension::kRatio, 1.3},
        {"-2 %", Dimension::kRatio, -0.02},
        {"5 %", Dimension::kProbability, 0.05},
        {".05", Dimension::kProbability, 0.05},
        {"1 in 20", Dimension::kProbability, 0.05},
        {"1/20", Dimension::kProbability, 0.05},
        {"1 per 3000 km", Dimension::kRatePerDistance, 1 / 3e6},
        {"0.4 per 1000 km", Dimension::kRatePerDistance, 4e-7},
        {"0.4/1000 km", Dimension::kRatePerDistance, 4e-7},
        {"3 flats in 5000 km", Dimension::kRatePerDistance, 6e-7},
        {"2 per mi", Dimension::kRatePerDistance, 2 / 1609.344},
        {"2 % per h", Dimension::kRatioPerTime, 0.02 / 3600},
        {"2 %/h", Dimension::kRatioPerTime, 0.02 / 3600},
        {"5 bar per 10 h", Dimension::kPressurePerTime, 5e5 / 36000},
    };
    for (const Reading& reading : readings) check_close(reading);
}

TEST_CASE("durations are read by the clock and in words") {
    const std::vector<Reading> readings = {
        {"2:35:00", Dimension::kTime, 9300},       {"0:08:30", Dimension::kTime, 510},
        {"12:00:00.5", Dimension::kTime, 43200.5}, {"8 min 30 s", Dimension::kTime, 510},
        {"8min30s", Dimension::kTime, 510},        {"1 h", Dimension::kTime, 3600},
        {"2 h 35 min", Dimension::kTime, 9300},    {"90 s", Dimension::kTime, 90},
        {"1.5 h", Dimension::kTime, 5400},         {"3 weeks", Dimension::kTime, 1814400},
        {"-1 h 30 min", Dimension::kTime, -5400},  {"2 days", Dimension::kTime, 172800},
    };
    for (const Reading& reading : readings) check_close(reading);
}

TEST_CASE("compass words turn clockwise from north in steps of 22.5 degrees") {
    const char* const words[] = {"N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE",
                                 "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "nnw"};
    for (int i = 0; i < 16; ++i) {
        check_close({words[i], Dimension::kDirection, i * 22.5 * std::numbers::pi / 180});
    }
    check_close({"247.5 deg", Dimension::kDirection, 11 * std::numbers::pi / 8});
    check_close({"360 deg", Dimension::kDirection, 0});
}

TEST_CASE("a quantity that cannot be understood says why and what to write") {
    const std::string duration =
        "write hours:minutes:seconds as in \"2:35:00\", or \"8 min 30 s\"";
    const std::string mass = "write a mass in kg, g, lb or oz, such as \"70 kg\"";
    const std::string share =
        "write a share between 0 % and 100 %, such as \"5 %\" or \"1 in 20\"";
    const std::string rate = "write it like \"1 per 3000 km\"";
    const std::string one_mass =
        "write one value such as \"70 kg\", or { low = \"...\", high = \"...\" } for a "
        "range";
    const std::vector<Refused> cases = {
        {"70", Dimension::kMass, "\"70\" has no unit (a mass needs one)",
         "write key = \"70 kg\", with its unit: kg, g, lb or oz"},
        {"16", Dimension::kTemperature, "\"16\" has no unit (a temperature needs one)",
         "write key = \"16 C\", with its unit: C, F or K"},
        {"3", Dimension::kInertia, "\"3\" has no unit (a moment of inertia needs one)",
         "write key = \"3 kg m2\""},
        {"247", Dimension::kDirection, "\"247\" has no unit (a direction needs one)",
         "write key = \"247 deg\""},
        {"70 kgs", Dimension::kMass, "\"kgs\" is no known unit", "write key = \"70 kg\""},
        {"70 KG", Dimension::kMass, "\"KG\" is no known unit", "write key = \"70 kg\""},
        {"35 kph", Dimension::kSpeed, "\"kph\" is no known unit",
         "write key = \"35 km/h\""},
        {"70 stone", Dimension::kMass, "\"stone\" is no known unit", mass},
        {"70 km", Dimension::kMass, "\"70 km\" is a length (a mass is wanted)", mass},
        {"5 kg", Dimension::kProbability, "\"5 kg\" is a mass (a share is wanted)",
         "write a share in %, such as \"5 %\""},
        {"70,5 kg", Dimension::kMass, "\"70,5 kg\" has a comma inside the number",
         "write 70.5 with a decimal point"},
        {"1,000 g", Dimension::kMass, "\"1,000 g\" has a comma inside the number",
         "write 1.000 with a decimal point, or 1000 for thousands"},
        {"1 000 g", Dimension::kMass, "\"1 000 g\" has a blank inside the number",
         "write 1000 g if it is one number"},
        {"1.2.3 kg", Dimension::kMass, "\"1.2.3 kg\" has two decimal points",
         "write the number with one decimal point"},
        {"70-75 kg", Dimension::kMass, "\"70-75 kg\" is more than one value", one_mass},
        {"70 kg \u2013 75 kg", Dimension::kMass,
         "\"70 kg \u2013 75 kg\" is more than one value", one_mass},
        {"70 to 75 kg", Dimension::kMass, "\"70 to 75 kg\" is more than one value",
         one_mass},
        {"70 \u00B1 2 kg", Dimension::kMass, "\"70 \u00B1 2 kg\" is more than one value",
         one_mass},
        {"about 70 kg", Dimension::kMass, "\"about 70 kg\" does not start with a number",
         "write the number first, then its unit"},
        {"nan", Dimension::kNumber, "\"nan\" is no finite number",
         "write a plain number"},
        {"inf W", Dimension::kPower, "\"inf W\" is no finite number",
         "write a plain number"},
        {"1e999 W", Dimension::kPower, "\"1e999 W\" is too large or too small a number",
         "check the exponent"},
        {"", Dimension::kMass, "is empty (a mass is wanted)",
         "write key = \"70 kg\", for instance"},
        {"-300 C", Dimension::kTemperature, "\"-300 C\" is below absolute zero",
         "check sign and unit"},
        {"2:35", Dimension::kTime, "\"2:35\" can mean 2 h 35 min or 2 min 35 s",
         "write \"2:35:00\" or \"0:02:35\""},
        {"2:75:00", Dimension::kTime, "\"2:75:00\" has 60 or more minutes or seconds",
         duration},
        {"2:35:5", Dimension::kTime, "\"2:35:5\" is no duration", duration},
        {"1:2:3:4", Dimension::kTime, "\"1:2:3:4\" has too many colons", duration},
        {"8 min 30", Dimension::kTime, "\"30\" has no unit (a duration needs one)",
         "write key = \"8 min 30 s\", with its unit: min, s, h, d, week or month, or as "
         "hours:minutes:seconds"},
        {"30 s 8 min", Dimension::kTime,
         "\"30 s 8 min\" does not go from larger to smaller units", duration},
        {"5 m", Dimension::kTime, "\"m\" is no unit of time", "write key = \"5 min\""},
        {"5 kg", Dimension::kTime, "\"5 kg\" is a mass (a duration is wanted)", duration},
        {"5-10 min", Dimension::kTime, "\"5-10 min\" is more than one value",
         "write one value such as \"8 min 30 s\", or { low = \"...\", high = \"...\" } "
         "for a "
         "range"},
        {"west", Dimension::kDirection, "\"west\" is no direction",
         "write a compass word such as \"WSW\", or degrees from 0 to 360 such as \"247 "
         "deg\""},
        {"370 deg", Dimension::kDirection, "\"370 deg\" is more than a full turn",
         "write degrees from 0 to 360, clockwise from north"},
        {"1.2", Dimension::kProbability, "\"1.2\" is no probability (it is above 1)",
         share},
        {"-1 %", Dimension::kProbability, "\"-1 %\" is no probability (it is below 0)",
         share},
        {"1 in 0", Dimension::kProbability, "\"1 in 0\" divides by 0",
         "write a number above 0 there, such as \"1 in 20\""},
        {"5 %", Dimension::kNumber, "\"5 %\" has a unit (a plain number is wanted)",
         "write 5"},
        {"0.4", Dimension::kRatePerDistance, "\"0.4\" is not a rate", rate},
        {"1 per 3000", Dimension::kRatePerDistance,
         "\"3000\" has no unit (a length needs one)", rate},
        {"1 per 0 km", Dimension::kRatePerDistance, "\"1 per 0 km\" divides by nothing",
         rate},
    };
    for (const Refused& c : cases) {
        CAPTURE(c.text);
        const Parsed<double> parsed = parse_quantity(c.text, c.dimension);
        REQUIRE_FALSE(parsed);
        CHECK(parsed.refusal().what == c.what);
        CHECK(format_hint(parsed.refusal(), "key") == c.hint);
    }
}

TEST_CASE("every example that a hint shows can itself be read") {
    for (int i = 0; i <= static_cast<int>(Dimension::kPressurePerTime); ++i) {
        const Dimension dimension = static_cast<Dimension>(i);
        CAPTURE(show_example(dimension));
        CHECK(parse_quantity(show_example(dimension), dimension));
    }
}

TEST_CASE("a bare number is taken only where no unit is needed") {
    CHECK(*accept_bare_number(0.0045, "0.0045", Dimension::kRatio) == 0.0045);
    CHECK(*accept_bare_number(0.05, "0.05", Dimension::kProbability) == 0.05);
    CHECK_FALSE(accept_bare_number(1.2, "1.2", Dimension::kProbability));
    CHECK_FALSE(accept_bare_number(70, "70", Dimension::kMass));
    CHECK_FALSE(accept_bare_number(0.4, "0.4", Dimension::kRatePerDistance));
    CHECK_FALSE(accept_bare_number(std::numeric_limits<double>::infinity(), "inf",
                                   Dimension::kNumber));
    CHECK_FALSE(accept_bare_number(std::numeric_limits<double>::quiet_NaN(), "nan",
                                   Dimension::kRatio));
}
