// A ride told along the course, on a terminal and as a table.
#include <limits>

#include "flattail/replay.h"
#include "publish/pages/text.h"
#include "support/catch.h"

using namespace flattail;

namespace {

// Invented: 90 points, a flat after 20 km.
Replay make_replay() {
    Replay replay;
    replay.race_name = "Lake race";
    replay.setup = "Latex";
    replay.race = 41;
    replay.start_clock_s = 8 * 3600.0;
    for (int km = 1; km <= 90; ++km) {
        const double time_s = km * 100.0 + (km > 20 ? 540.0 : 0.0);
        replay.points.push_back({km * 1000.0, time_s, 10.0, 200.0, 4.0,
                                 km % 2 == 0 ? 3.0 : -3.0, 4.7e5, 5e5});
    }
    replay.events = {{20200.0, 2020.0, "rear flat: a cut, at speed"},
                     {20200.0, 2560.0, "rear: tube changed in 8:30 min"}};
    replay.finish_s = 9540.0;
    replay.lost_s = 540.0;
    replay.flats = 1;
    replay.ending = "finished";
    return replay;
}

}  // namespace

TEST_CASE("a replay page has a line every few kilometres and fits a terminal") {
    const std::string page = write_replay_page(make_replay());
    CHECK(page.find("Race day 41, Latex, seed 1") != std::string::npos);
    CHECK(page.find("  20.2  rear flat: a cut, at speed") != std::string::npos);
    CHECK(page.find("tube changed in 8:30") != std::string::npos);
    CHECK(page.find("Finished in 2:39:00. 1 flat, 9:00 lost to it.") !=
          std::string::npos);
    std::size_t start = 0, rows = 0;
    while (start < page.size()) {
        const std::size_t end = page.find('\n', start);
        CHECK(publish::measure_width(page.substr(start, end - start)) <= 80);
        start = end + 1;
        ++rows;
    }
    CHECK(rows > 20);
    CHECK(rows < 40);
    // What happened stands before the line of the place that was reached later.
    CHECK(page.find("rear flat") < page.find("  25.0  "));
}

TEST_CASE("a ride without a finish says why") {
    Replay replay = make_replay();
    replay.points.resize(20);
    replay.finish_s = std::numeric_limits<double>::infinity();
    replay.ending = "no spare left";
    const std::string page = write_replay_page(replay);
    CHECK(page.find("No finish: no spare left.") != std::string::npos);
    CHECK(page.find("rear flat") != std::string::npos);
}
