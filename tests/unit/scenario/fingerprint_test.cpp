#include <set>

#include "scenario_texts.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::scenario;

TEST_CASE("the same scenario has the same fingerprint") {
    CHECK(read_smallest().fingerprint() == read_smallest().fingerprint());
    CHECK(read_smallest().fingerprint().size() == 16);
}

TEST_CASE("names and units do not move a fingerprint") {
    const std::string plain = read_smallest().fingerprint();
    CHECK(read_smallest({"race.name=Another"}).fingerprint() == plain);
    CHECK(read_smallest({"rider.mass=70000 g"}).fingerprint() == plain);
    CHECK(read_smallest({"rider.name=Someone Else"}).fingerprint() == plain);
}

TEST_CASE("whatever can move a result moves the fingerprint") {
    std::set<std::string> seen = {read_smallest().fingerprint()};
    for (const char* setting : {"rider.mass=71 kg",
                                "rider.power=201 W",
                                "rider.pacing=steady",
                                "rider.fade=1 % per h",
                                "rider.fade_from=2 h",
                                "rider.repair=slow",
                                "rider.repair=cannot",
                                "weather.wind=14 km/h",
                                "weather.from=W",
                                "weather.humidity=50 %",
                                "weather.gust=1.4",
                                "weather.rain=20 %",
                                "road.surface=coarse",
                                "road.shelter=wood",
                                "road.wet_speed=0.7",
                                "flats.training=1 per 3000 km",
                                "flats.clumping=1.5",
                                "flats.at_speed=30 km/h",
                                "repair.notice=6 s",
                                "repair.help=officials",
                                "preparation.gauge=stranger's",
                                "race.course.climb=424 m",
                                "race.start=rolling",
                                "race.stops=not counted",
                                "race.speed_limit=50 km/h",
                                "race.cutoff=4:00:00",
                                "race.goal=2:36:00",
                                "race.bike_start=09:00",
                                "kit=[\"2 tubes\"]",
                                "setup.Latex.inner=TPU",
                                "setup.Latex.added_mass=+30 g",
                                "setup.Latex.worn=half",
                                "setup.Latex.ridden_since_fitting=10 km",
                                "decision.rule=typical",
                                "decision.matters=20 s",
                                "decision.against=Latex"}) {
        CAPTURE(setting);
        CHECK(seen.insert(read_smallest({setting}).fingerprint()).second);
    }
}
