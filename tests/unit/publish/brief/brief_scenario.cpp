#include "unit/publish/brief/brief_scenario.h"

#include <fstream>
#include <iterator>

namespace flattail::test {

namespace {

constexpr const char* kText = R"toml(
kit = ["tube", "tube", "cartridge 16 g", "cartridge 16 g", "levers"]
[race]
name = "Three Herons Middle, bike leg"
invented = true
course = { distance = "88 km", climb = "400 m" }
bike_start = "2026-06-14 08:05"
goal = "2:35:00"
[rider]
name = "Tamsin Orrelwick"
mass = "70 kg"
position = "triathlon bike"
power = "200 W"
repair = "ordinary"
[weather]
temperature = "16 C"
wind = "13 km/h"
from = "WSW"
rain = "40 %"
[[road.stretch]]
from = "31.4 km"
to = "33 km"
name = "Old quarry"
surface = "coarse"
debris = 3
speed_cap = "50 km/h"
[rim]
most = "6.5 bar"
[[tyre]]
name = "race 28 mm"
width = "28 mm"
most = "7 bar"
[[setup]]
name = "Butyl (on now)"
tyre = "race 28 mm"
inner = "butyl"
pressure = { front = "68 psi", rear = "71 psi" }
ridden_since_fitting = "400 km"
[[setup]]
name = "Latex"
like = "Butyl (on now)"
inner = "latex"
ridden_since_fitting = "0 km"
)toml";

}  // namespace

Scenario read_brief_scenario(const std::vector<std::string>& settings,
                             const std::string& extra) {
    return read_scenario({"race.toml", settings, kText + extra});
}

publish::BriefContent make_content(const Findings& findings, const Scenario& scenario) {
    return publish::make_brief_content(findings, scenario.model(),
                                       plan_pumping(scenario));
}

std::vector<std::string> list_hostile_names() {
    return {"<b>O'Neil & \"Co\"</b>",
            "</title><script>alert(1)</script>",
            std::string(300, 'W'),
            "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xD7\xA2\xD7\x95\xD7\x9C\xD7\x9D",
            "\xF0\x9F\x9A\xB4 {{race}} \xF0\x9F\x9B\x9E",
            "line\nend \x01 and \xFF bytes"};
}

std::string read_whole(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

}  // namespace flattail::test
