#include "sampling/road_hazard.h"

#include <cmath>
#include <vector>

#include "base/lane_math.h"
#include "physics/flat_hazard.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::sampling;
using course::Segment;
using course::Surface;

namespace {

constexpr double kRough = 3.0;

void add_segment(std::vector<Segment>& road, double length_m, double debris,
                 Surface surface = Surface::kOrdinary) {
    Segment segment;
    segment.from_m = road.empty() ? 0.0 : road.back().from_m + road.back().length_m;
    segment.length_m = length_m;
    segment.debris = debris;
    segment.surface = surface;
    road.push_back(segment);
}

RoadHazard make_dirty_end() {
    std::vector<Segment> road;
    add_segment(road, 60000.0, 1.0);
    add_segment(road, 30000.0, 4.0);
    return RoadHazard(road, kRough);
}

// (1 + sin(2 pi s / 90 km) / 2), averaged over each of many segments.
RoadHazard make_wave() {
    constexpr double kWaveM = 90000.0;
    constexpr int kSegments = 900;
    const double turn = 2.0 * base::lane::kPi;
    std::vector<Segment> road;
    for (int i = 0; i < kSegments; ++i) {
        const double fall =
            std::cos(turn * i / kSegments) - std::cos(turn * (i + 1) / kSegments);
        add_segment(road, kWaveM / kSegments, 1.0 + 0.5 * fall * kSegments / turn);
    }
    return RoadHazard(road, kRough);
}

}  // namespace

TEST_CASE("sixty ordinary kilometres and thirty with four times the debris") {
    const RoadHazard road = make_dirty_end();
    CHECK(road.length_m() == 90000.0);
    CHECK(road.total_m(FlatCause::kCut) == Approx(180000.0).epsilon(1e-15));
    // 60 km at 1 per 2000 km and 30 km at 1 per 500 km: e^-.09, mpmath.
    CHECK(std::exp(-road.total_m(FlatCause::kCut) / 2e6) ==
          Approx(.913931185271).epsilon(1e-11));
    // A third of the hazard lies on the clean road, a half ends 7.5 km beyond it.
    CHECK(road.find_place_m(FlatCause::kCut, 1.0 / 3.0) == Approx(60000.0));
    CHECK(road.find_place_m(FlatCause::kCut, 0.5) == Approx(67500.0));
    CHECK(road.find_place_m(FlatCause::kCut, 1.0 / 6.0) == Approx(30000.0));
}

TEST_CASE("debris cuts but does not pinch") {
    const RoadHazard road = make_dirty_end();
    CHECK(road.total_m(FlatCause::kPinch) == Approx(90000.0).epsilon(1e-15));
    CHECK(road.find_place_m(FlatCause::kPinch, 0.5) == Approx(45000.0));
}

TEST_CASE("what was fitted badly lets go early, wherever the debris lies") {
    std::vector<Segment> segments;
    for (int km = 0; km < 90; ++km) {
        add_segment(segments, 1000.0, km < 60 ? 1.0 : 4.0, Surface::kOrdinary);
    }
    const RoadHazard road(segments, kRough);
    // 50 km leave a fifth: over 90 km 1 - 5^-1.8 of all that a tube still has before it.
    const double length_m = 50e3 / std::log(5.0);
    const double all = 1.0 - std::pow(5.0, -1.8);
    CHECK(road.total_m(FlatCause::kFitting) == Approx(length_m * all).epsilon(1e-12));
    const double half_m = -length_m * std::log(1.0 - 0.5 * all);
    CHECK(road.find_place_m(FlatCause::kFitting, 0.5) == Approx(half_m).epsilon(0.02));
    CHECK(half_m < 25e3);
}

TEST_CASE("rough roads pinch as often as the impacts of the surface say") {
    for (const Surface surface :
         {Surface::kSmooth, Surface::kOrdinary, Surface::kCoarse, Surface::kCobbles}) {
        std::vector<Segment> segments;
        add_segment(segments, 1000.0, 1.0, surface);
        const double over_ordinary =
            RoadHazard(segments, kRough).total_m(FlatCause::kPinch) / 1000.0;
        const double expected = surface == Surface::kCobbles  ? 6.0
                                : surface == Surface::kCoarse ? 3.0
                                                              : 1.0;  // METHOD 6.2
        CAPTURE(static_cast<int>(surface));
        CHECK(over_ordinary == Approx(expected).epsilon(1e-15));
        CHECK(RoadHazard(segments, kRough).total_m(FlatCause::kCut) == 1000.0);
    }
}

TEST_CASE("a hazard that varies along the road puts flats where theory has them") {
    const RoadHazard road = make_wave();
    // Hazard of one flat per 1500 km on average; figures by mpmath.
    CHECK(road.total_m(FlatCause::kCut) / 1.5e6 == Approx(.06).epsilon(1e-12));
    CHECK(road.find_place_m(FlatCause::kCut, .039549296586 / .06) ==
          Approx(45000.0).epsilon(1e-9));
    constexpr int kShares = 90000;
    double first = 0.0, second = 0.0;
    for (int i = 0; i < kShares; ++i) {
        const double km =
            road.find_place_m(FlatCause::kCut, (i + 0.5) / kShares) / 1000.0;
        first += km / kShares;
        second += km * km / kShares;
    }
    // The piecewise constant hazard and the midpoint rule are each good to 1e-5 km.
    CHECK(first == Approx(37.8380275609).margin(1e-4));
    CHECK(std::sqrt(second - first * first) == Approx(24.9741096094).margin(1e-4));
}

TEST_CASE("places rise with the share, from the start to the finish") {
    for (const RoadHazard& road : {make_dirty_end(), make_wave()}) {
        CHECK(road.find_place_m(FlatCause::kCut, 0.0) == 0.0);
        CHECK(road.find_place_m(FlatCause::kCut, 1.0) == Approx(90000.0).epsilon(1e-14));
        double before = 0.0;
        for (int i = 1; i <= 1000; ++i) {
            const double place = road.find_place_m(FlatCause::kCut, i / 1000.0);
            REQUIRE(place > before);
            before = place;
        }
    }
}

TEST_CASE("where nothing cuts, no cut lies") {
    std::vector<Segment> segments;
    add_segment(segments, 1000.0, 1.0);
    add_segment(segments, 5000.0, 0.0);
    add_segment(segments, 1000.0, 1.0);
    const RoadHazard road(segments, kRough);
    CHECK(road.total_m(FlatCause::kCut) == 2000.0);
    for (int i = 1; i < 100; ++i) {
        if (i == 50) continue;  // the swept road is a single share
        const double place = road.find_place_m(FlatCause::kCut, i / 100.0);
        CHECK((place < 1000.0 || place > 6000.0));
    }
}
