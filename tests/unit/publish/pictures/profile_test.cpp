// The road as pictures and briefs tell it.
#include "publish/pictures/profile.h"

#include <cmath>

#include "flattail/scenario.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::publish;

namespace {

// Out and back along one straight road, wind along it; the way out is east.
const scenario::Model& read_model() {
    static const Scenario kScenario = read_scenario({"race.toml", {}, std::string(R"(
race = { course = { distance = "40 km", climb = "0 m" }, bike_start = "08:00" }
rider = { mass = "70 kg", position = "drops", power = "200 W" }
weather = { temperature = "16 C", wind = "18 km/h", from = "W" }
flats = { pinch_share = "10 %" }
kit = ["tube", "cartridge 16 g"]
[road]
shelter = "open"
[[road.stretch]]
from = "10 km"
to = "12 km"
surface = "coarse"
debris = 4
name = "Quarry"
[[road.stretch]]
from = "20 km"
to = "21 km"
debris = 1.2
[[setup]]
name = "Butyl"
tyre = "race 28 mm"
inner = "butyl"
pressure = "70 psi"
)")});
    return kScenario.model();
}

const ProfileRow& find_row(const std::vector<ProfileRow>& rows, double km) {
    std::size_t i = 0;
    while (i + 1 < rows.size() && rows[i + 1].km <= km) ++i;
    return rows[i];
}

}  // namespace

TEST_CASE("flat risk is 1 on an ordinary road and follows debris and roughness") {
    const auto rows = make_profile(read_model(), 4000.0);
    CHECK(find_row(rows, 5.0).flat_ratio == Approx(1.0));
    // 90 % cuts on 4 times the debris, 10 % pinches with 3 times the impacts.
    CHECK(find_row(rows, 11.0).flat_ratio == Approx(0.9 * 4.0 + 0.1 * 3.0));
    CHECK(find_row(rows, 20.5).flat_ratio == Approx(0.9 * 1.2 + 0.1));
}

TEST_CASE("around a loop, wind along the road cancels out and is never above the wind") {
    const auto rows = make_profile(read_model(), 4000.0);
    double sum = 0.0, most = 0.0;
    for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
        sum += rows[i].head_wind_m_s;
        most = std::max(most, std::abs(rows[i].head_wind_m_s));
    }
    const double rider_wind_m_s = 18.0 / 3.6 * course::kOpenShelter;
    CHECK(std::abs(sum) / static_cast<double>(rows.size()) < 0.02 * rider_wind_m_s);
    CHECK(most <= rider_wind_m_s * (1.0 + 1e-9));
    CHECK(most > 0.98 * rider_wind_m_s);
}

TEST_CASE("stretches worth a warning are coarse, cobbled or full of debris") {
    const auto rough = list_rough_stretches(*read_model().course);
    REQUIRE(rough.size() == 1);
    CHECK(rough[0].name == "Quarry");
    CHECK(rough[0].from_km == Approx(10.0));
    CHECK(rough[0].to_km == Approx(12.0));
}
