// The smallest scenario that works, and small changes to it. Invented numbers.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

#include "flattail/scenario.h"
#include "scenario/model.h"
#include "scenario/tables/read_scenario.h"

namespace flattail::scenario {

inline const std::string kSmallest = R"toml(
kit = ["tube", "cartridge 16 g", "cartridge 16 g"]
[race]
course     = { distance = "90 km", climb = "423 m" }
bike_start = "2026-06-14 08:05"
goal       = "2:35:00"
[rider]
mass     = "70 kg"
position = "triathlon bike"
power    = "200 W"
repair   = "ordinary"
[weather]
temperature = "16 C"
wind        = "13 km/h"
from        = "WSW"
[[setup]]
name = "Butyl (on now)"
tyre = "race 28 mm"
inner = "butyl"
pressure = { front = "68 psi", rear = "71 psi" }
[[setup]]
name = "Latex"
like = "Butyl (on now)"
inner = "latex"
)toml";

/// The smallest scenario with settings and more tables at its end.
inline Scenario read_smallest(const std::vector<std::string>& settings = {},
                              const std::string& more = "") {
    return read_scenario_text(kSmallest + more, "smallest.toml", settings);
}

inline const Input& find_input(const Model& model, const std::string& name) {
    for (const Input& input : model.inputs) {
        if (input.name == name) return input;
    }
    throw std::runtime_error("no input " + name);
}

}  // namespace flattail::scenario
