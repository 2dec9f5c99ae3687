// Laws of the best pressure, ridden through the public study.
#include <algorithm>

#include "flattail/preparation.h"
#include "scenario/tables/read_scenario.h"
#include "support/catch.h"

using namespace flattail;

namespace {

// Nothing goes flat, no luck: rolling alone decides.
std::vector<SetupPressure> find_best(const std::string& surface,
                                     const std::string& flats = "\"0 per 1000 km\"") {
    const std::string text = R"(
race = { course = { distance = "8 km", climb = "20 m" } }
rider = { mass = "70 kg", power = { mean = "200 W", sd = "0 W" } }
rim = { most = "9 bar" }
[weather]
temperature = "25 C"
temperature_error = "0 C"
wind = "0 km/h"
[road]
surface = ")" + surface + R"("
[flats]
training = )" + flats + R"(
slow_share = 0
[preparation]
gauge = "0 psi"
[[tyre]]
name = "race 28 mm"
width = "28 mm"
most = "9 bar"
least = "1.7 bar"
[[inner]]
name = "sound"
kind = "butyl"
fitting = 0
[[setup]]
name = "Butyl"
tyre = "race 28 mm"
inner = "sound"
pressure = "5 bar"
)";
    return find_best_pressures(scenario::read_scenario_text(text, "best.toml"));
}

}  // namespace

TEST_CASE("the rougher the road the lower the best pressure, by rolling alone") {
    double last = 1e9;
    for (const char* surface : {"smooth", "ordinary", "coarse"}) {
        const WheelPressure rear = find_best(surface).at(0).wheels[1];
        CAPTURE(surface);
        REQUIRE(rear.trials.size() > 10);
        CHECK(rear.best_pa < last);
        last = rear.best_pa;
        CHECK(rear.flat_from_pa <= rear.best_pa);
        CHECK(rear.best_pa <= rear.flat_to_pa);
        CHECK(rear.lowest.gauge_pa <= rear.best_pa);
        CHECK(rear.best_pa <= rear.highest.gauge_pa);
    }
}

TEST_CASE("the best pressure of an ordinary road is that of the closed form") {
    // METHOD 4.6: 4.9 bar; the median of the drawn coefficients lies at it.
    const WheelPressure front = find_best("ordinary").at(0).wheels[0];
    const double step = front.trials[1].gauge_pa - front.trials[0].gauge_pa;
    CHECK(front.best_pa == Approx(4.9e5).margin(1.5 * step));
}

TEST_CASE("more pressure never brings more flats") {
    const auto wheels = find_best("coarse", "\"1 per 300 km\"").at(0).wheels;
    for (const WheelPressure& wheel : wheels) {
        for (std::size_t i = 1; i < wheel.trials.size(); ++i) {
            CHECK(wheel.trials[i].flats_per_race <=
                  wheel.trials[i - 1].flats_per_race + 1e-12);
        }
        CHECK(wheel.trials.front().flats_per_race >
              1.2 * wheel.trials.back().flats_per_race);
    }
}

TEST_CASE("without limits no pressure is tried") {
    const std::string text = R"(
race = { course = { distance = "8 km", climb = "20 m" } }
rider = { mass = "70 kg", power = "200 W" }
[[setup]]
name = "Butyl"
tyre = "race 28 mm"
inner = "butyl"
pressure = "5 bar"
)";
    const auto found =
        find_best_pressures(scenario::read_scenario_text(text, "best.toml"));
    CHECK(found.at(0).missing.size() == 2);
    CHECK(found.at(0).wheels[0].trials.empty());
    CHECK(write_pressure_page(found).find("limits are not stated") != std::string::npos);
}
