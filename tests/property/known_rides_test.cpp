// What is solved from a known ride, ridden by the whole study: the typical day is that
// ride again. Luck is off, so that the middle of the days is the ride and nothing else.
#include <cmath>

#include "flattail/scenario.h"
#include "flattail/study.h"
#include "support/catch.h"

using namespace flattail;

namespace {

const std::string kRider = R"toml(
[race]
course = { distance = "60 km", climb = "300 m" }
[rider]
mass = "70 kg"
drag_area = "0.27 m2"
bad_day = "never"
fade = "0 % per h"
power_variation = "0 %"
[weather]
temperature = "25 C"
temperature_error = "0 C"
wind = "10 km/h"
wind_error = "0 %"
gust = 1
rain = "0 %"
pressure = "1013.25 hPa"
humidity = "0 %"
[[setup]]
name = "Butyl"
tyre = "race 28 mm"
inner = "butyl"
pressure = "5 bar"
)toml";

double ride_typical_day(const std::vector<std::string>& settings) {
    const Scenario scenario = read_scenario({"known.toml", settings, kRider});
    StudyOptions options;
    options.races = 6400;
    options.threads = 1;
    return run_study(scenario, options).setups.at(0).typical_s;
}

}  // namespace

TEST_CASE("the typical day of an expected split is that split") {
    // Still open after luck is off: power by feel, what is not known of rolling, 3 flats
    // in 100 days. Together they leave the middle within .5 %.
    CHECK(ride_typical_day({"rider.expected_split=1:45:00"}) ==
          Approx(6300.0).epsilon(0.005));
    CHECK(ride_typical_day({"rider.expected_split=2:10:00", "weather.from=W",
                            "rider.pacing=steady"}) == Approx(7800.0).epsilon(0.005));
}

TEST_CASE("a past ride ridden again over such a course takes the same time") {
    // 1.225 kg/m3 at 15 C is the past ride's air, the race's at 25 C is thinner by 3.4 %:
    // with drag three quarters of the power, 1 % in time.
    const std::string past =
        "rider.past_ride={ distance = \"60 km\", time = \"1:45:00\", climb = \"300 m\" }";
    CHECK(ride_typical_day({past, "weather.temperature=15 C"}) ==
          Approx(6300.0).epsilon(0.01));
}
