#include "course/track.h"

#include "support/catch.h"
#include "unit/course/tracks.h"

using namespace flattail;
using namespace flattail::course;
using namespace flattail::course::test;

namespace {

struct Cleaned {
    std::vector<RawPoint> points;
    base::ProblemList problems;
};

Cleaned clean(const RawTrack& track) {
    Cleaned cleaned;
    cleaned.points = clean_track(track, "road.gpx", cleaned.problems);
    return cleaned;
}

}  // namespace

TEST_CASE("a good track goes through unchanged and without a word") {
    const RawTrack track = record(draw_hills(3000.0, 10.0, 20.0, 1000.0), {2.0, 1.0, 1});
    const Cleaned cleaned = clean(track);
    CHECK(cleaned.points.size() == track.points.size());
    CHECK(cleaned.problems.all().empty());
}

TEST_CASE("points that repeat the one before are left out and counted") {
    RawTrack track = record(draw_straight(1000.0, 10.0));
    track.points.insert(track.points.begin() + 50, 3, track.points[50]);
    const Cleaned cleaned = clean(track);
    CHECK(cleaned.points.size() == 101);
    REQUIRE(has_problem(cleaned.problems.all(), "on top of the point before them"));
    CHECK(has_problem(cleaned.problems.all(), ": 3, the first at km 0.50"));
    CHECK(cleaned.problems.all().front().place.line == 60);
}

TEST_CASE("times that run backwards are reported and the order of the file kept") {
    RawTrack track = record(draw_straight(1000.0, 10.0));
    for (std::size_t i = 0; i < track.points.size(); ++i) {
        track.points[i].time_s = static_cast<double>(i);
    }
    CHECK(clean(track).problems.all().empty());
    track.points[40].time_s = 10.0;
    const Cleaned cleaned = clean(track);
    CHECK(cleaned.points.size() == track.points.size());
    CHECK(has_problem(cleaned.problems.all(), "before that of an earlier point"));
}

TEST_CASE("a single jump off the line is a spike and left out") {
    std::vector<Spot> spots = draw_straight(2000.0, 10.0);
    spots[80].east_m += 400.0;
    const Cleaned cleaned = clean(record(spots));
    CHECK(cleaned.points.size() == spots.size() - 1);
    CHECK(has_problem(cleaned.problems.all(), "far off the line"));
}

TEST_CASE("the turning point of a sparse out-and-back road is no spike") {
    std::vector<Spot> spots = draw_straight(2000.0, 10.0);
    const Spot last = spots.back();
    spots.push_back({last.east_m + 240.0, last.north_m + 320.0, last.height_m});
    for (int i = 200; i >= 0; --i) {
        spots.push_back(spots[static_cast<std::size_t>(i)]);
    }
    const Cleaned cleaned = clean(record(spots));
    CHECK(cleaned.points.size() == spots.size());
    CHECK_FALSE(has_problem(cleaned.problems.all(), "far off the line"));
}

TEST_CASE("a gap that keeps its direction may be a tunnel, one that turns is a gap") {
    std::vector<Spot> spots = draw_straight(3000.0, 10.0);
    spots.erase(spots.begin() + 100, spots.begin() + 150);
    CHECK(has_problem(clean(record(spots)).problems.all(), "perhaps a tunnel"));
    std::vector<Spot> bent = draw_straight(1000.0, 10.0);
    const Spot corner = bent.back();
    for (int i = 0; i <= 100; ++i) {
        bent.push_back({corner.east_m + 300.0 + 10.0 * i, corner.north_m - 200.0, 100.0});
    }
    const Cleaned cleaned = clean(record(bent));
    CHECK(has_problem(cleaned.problems.all(), "ridden as straight lines"));
    CHECK_FALSE(has_problem(cleaned.problems.all(), "tunnel"));
}

TEST_CASE("missing heights lie on the line between their neighbours") {
    RawTrack track = record(draw_straight(1000.0, 10.0));
    for (std::size_t i = 0; i < track.points.size(); ++i) {
        track.points[i].elevation_m = 50.0 + 0.2 * static_cast<double>(i);
    }
    for (std::size_t i = 30; i < 60; ++i) {
        track.points[i].elevation_m = kUnknown;
    }
    track.points.back().elevation_m = kUnknown;
    const Cleaned cleaned = clean(track);
    CHECK(has_problem(cleaned.problems.all(), "without a height, filled in"));
    CHECK(cleaned.points[45].elevation_m == Approx(59.0).epsilon(1e-6));
    CHECK(cleaned.points.back().elevation_m == Approx(69.8));
}

TEST_CASE("a track without any height is flat and says so") {
    RawTrack track = record(draw_straight(1000.0, 10.0));
    for (RawPoint& point : track.points) {
        point.elevation_m = kUnknown;
    }
    const Cleaned cleaned = clean(track);
    CHECK(has_problem(cleaned.problems.all(), "no point has a height"));
    CHECK(cleaned.points[10].elevation_m == 0.0);
}

TEST_CASE("a height that stands alone is replaced, a hill is not") {
    RawTrack track = record(draw_hills(3000.0, 10.0, 60.0, 1500.0));
    CHECK(clean(track).problems.all().empty());
    const double right_m = track.points[100].elevation_m;
    track.points[100].elevation_m = 0.0;
    const Cleaned cleaned = clean(track);
    CHECK(has_problem(cleaned.problems.all(), "cannot be right"));
    CHECK(cleaned.points[100].elevation_m == Approx(right_m).margin(0.1));
}
