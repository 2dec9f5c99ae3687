// What the program says when nobody asks for anything in particular.
#pragma once

namespace flattail::app {

inline constexpr const char* kGuide =
    R"guide(flattail chooses a wheel setup for one race under the risk of flats.

  flattail start race.toml     asks about race and rider and writes the scenario
  flattail check race.toml     the scenario as understood, with all defaults
  flattail course race.toml    the course and its profile
  flattail pump race.toml      what to pump, by the morning's temperature
  flattail evidence tests.csv  pools rolling tests into what a scenario can use
  flattail race race.toml      rides 100,000 race days with every setup
  flattail brief race.toml     the same as a page for the rider and a message
  flattail why race.toml       what would turn the answer and what moves it
  flattail sweep race.toml --over "rider.power=150 W..250 W"
                               the same at several values of one thing
  flattail replay race.toml --race 41 --setup Latex
                               one of those rides, told along the course
  flattail flats rides.csv     learns flat rates and repair times from a log

The smallest scenario that works, saved as race.toml:

  race    = { course = "lakes.gpx", bike_start = "08:05", goal = "2:35:00" }
  rider   = { mass = "70 kg", position = "triathlon bike", power = "200 W" }
  weather = { temperature = "16 C", wind = "13 km/h", from = "WSW" }
  kit     = ["tube", "cartridge 16 g"]
  [[setup]]
  name = "Butyl (on now)"
  tyre = "race 28 mm"
  inner = "butyl"
  pressure = { front = "68 psi", rear = "71 psi" }
  [[setup]]
  name = "Latex"
  like = "Butyl (on now)"
  inner = "latex"

Each command explains itself: flattail race --help
)guide";

}  // namespace flattail::app
