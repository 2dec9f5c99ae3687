// Plain days: points lie as a Poisson process over place and height, and taking those
// below a height is thinning. Bounds: 4.9 standard errors, or exact binomial limits.
#include "sampling/flat_points.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "drawn_days.h"
#include "sampling/wheel_hazard.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::sampling;
using namespace flattail::test;

namespace {

constexpr double kRoadM = 90000.0;    // make_road(1), in metres of ordinary road
constexpr double kDirtyM = 180000.0;  // make_road(4)
constexpr int kBlocks = 10000;        // 640,000 days
constexpr int kDays = kBlocks * kLanes;

using Tally = std::array<int, 5>;  // days with 0, 1, 2, 3, 4 or more points

Tally tally_counts(const scenario::Model& model, double debris) {
    Days days(model, make_road(debris), DrawnAs::kPlain);
    Tally tally{};
    for (std::uint64_t b = 0; b < kBlocks; ++b) {
        const DayBlock& block = days.draw(b * kLanes);
        std::array<int, kLanes> count{};
        for (const FlatPoint& point : block.points) count[point.lane] += 1;
        for (const int n : count) tally[static_cast<std::size_t>(std::min(n, 4))] += 1;
    }
    return tally;
}

std::vector<FlatPoint> list_points(const scenario::Model& model, double debris,
                                   int blocks) {
    Days days(model, make_road(debris), DrawnAs::kPlain);
    std::vector<FlatPoint> all;
    for (std::uint64_t b = 0; b < static_cast<std::uint64_t>(blocks); ++b) {
        const auto& points = days.draw(b * kLanes).points;
        all.insert(all.end(), points.begin(), points.end());
    }
    return all;
}

// Null: the number of points in all is Poisson with this mean; normal at thousands.
bool has_total(double found, double mean) {
    return std::abs(found - mean) <= kStandardErrors * std::sqrt(mean);
}

template <class Predicate>
int count_points(const std::vector<FlatPoint>& points, Predicate holds) {
    int count = 0;
    for (const FlatPoint& point : points) count += holds(point) ? 1 : 0;
    return count;
}

bool is_same(const FlatPoint& a, const FlatPoint& b) {
    return a.place_m == b.place_m && a.height == b.height && a.lane == b.lane &&
           a.wheel == b.wheel && a.cause == b.cause && a.key == b.key;
}

// What a wheel meets: its pressure times `softened`, on a dry (0) or wet (1) road.
struct Meeting {
    int wheel = 1;
    FlatCause cause = FlatCause::kCut;
    double softened = 1.0;
    double wet = 0.0;
};

// Flats of one cause and wheel that the second setup suffers, and how many its hazard
// lets expect.
struct Suffered {
    double found = 0.0;
    double expected = 0.0;
};

Suffered count_suffered(const scenario::Model& model, const Meeting& met) {
    Days days(model, make_road(4.0), DrawnAs::kPlain);
    const auto& setup = model.setups[1];
    const auto& w = setup.wheels[static_cast<std::size_t>(met.wheel)];
    const RollingWheel rolling{w.tyre, w.inner, w.wear_ratio, w.fitting_ratio};
    Suffered suffered;
    for (std::uint64_t b = 0; b < 2000; ++b) {
        const DayBlock& block = days.draw(b * kLanes);
        double rate[kLanes], ratio[kLanes];
        compute_reference_rates(model, block, met.wheel, met.cause, rate);
        for (int j = 0; j < kLanes; ++j) {
            const double error = block.of(model.preparation.gauge_error_pa)[j];
            const WheelMoment moment{
                (w.gauge_pa + error) * met.softened, met.wet,
                compute_wheel_load_n(model, block, j, setup, met.wheel)};
            ratio[j] = compute_hazard_ratio(model, block, j, rolling, met.cause, moment);
            suffered.expected += rate[j] * ratio[j] * days.road.total_m(met.cause);
        }
        for (const FlatPoint& point : block.points) {
            const bool mine = point.wheel == met.wheel && point.cause == met.cause;
            suffered.found += mine && point.height < ratio[point.lane] ? 1.0 : 0.0;
        }
    }
    return suffered;
}

scenario::Model make_flat_race() {
    scenario::Model model = support::make_race_model();
    support::fix_input(model, model.flats.training_per_m, 1.0 / 1e5);
    support::fix_input(model, model.inners[1].fitting_fault, 0.05);
    return model;
}

bool agrees(const Suffered& s) { return has_total(s.found, s.expected); }

}  // namespace

TEST_CASE("ninety kilometres at one flat per 1500 km: days with 0 to 3 points") {
    const Tally tally = tally_counts(make_cut_model(0.06, kRoadM), 1.0);
    // e^-.06 .06^n / n!, mpmath.
    CHECK(has_share(tally[0], kDays, .941764533584));
    CHECK(has_share(tally[1], kDays, .0565058720151));
    CHECK(has_share(tally[2], kDays, .00169517616045));
    CHECK(has_share(tally[3], kDays, 3.3903523209e-5));
    CHECK(has_share(tally[3] + tally[4], kDays, 3.44182402447e-5));
}

TEST_CASE("sixty kilometres and thirty with four times the debris: days without points") {
    const Tally tally = tally_counts(make_cut_model(0.09, kDirtyM), 4.0);
    CHECK(has_share(tally[0], kDays, .913931185271));  // e^-.09, mpmath
}

TEST_CASE("twin: flats drawn five per cent too often are found") {
    const Tally tally = tally_counts(make_cut_model(0.06 * 1.05, kRoadM), 1.0);
    CHECK_FALSE(has_share(tally[0], kDays, .941764533584));
    CHECK_FALSE(has_share(tally[1], kDays, .0565058720151));
}

TEST_CASE("each strip of height, wheel and part of the road has its share of points") {
    constexpr int kSome = 2000;
    constexpr double kPerDay = 0.5;
    const auto points = list_points(make_cut_model(kPerDay, kDirtyM, 4.0), 4.0, kSome);
    const double per_height = kPerDay * kSome * kLanes;
    const auto within = [&](double low, double high) {
        return count_points(points, [=](const FlatPoint& p) {
            return p.height >= low && p.height < high;
        });
    };
    CHECK(has_total(within(0.0, 1.0), per_height));
    CHECK(has_total(within(1.0, 2.0), per_height));
    CHECK(has_total(within(2.0, 4.0), 2.0 * per_height));
    CHECK(has_total(within(0.0, 0.3), 0.3 * per_height));  // thinned within a strip
    CHECK(has_total(within(0.7, 2.5), 1.8 * per_height));  // and across strips
    CHECK_FALSE(has_total(within(0.0, 1.0), 1.05 * per_height));
    const int all = static_cast<int>(points.size());
    CHECK(has_total(all, 4.0 * per_height));
    const int rear =
        count_points(points, [](const FlatPoint& p) { return p.wheel == 1; });
    CHECK(has_share(rear, all, 2.0 / 3.0));
    const int clean =
        count_points(points, [](const FlatPoint& p) { return p.place_m < 60000.0; });
    CHECK(has_share(clean, all, 1.0 / 3.0));
    CHECK_FALSE(has_share(clean, all, 1.0 / 3.0 * 1.05));
}

TEST_CASE("places follow the hazard and heights are even within their reach") {
    const auto points = list_points(make_cut_model(0.5, kDirtyM, 3.0), 4.0, 1000);
    std::vector<double> places, heights;
    for (const FlatPoint& point : points) {
        places.push_back(point.place_m);
        heights.push_back(point.height);
    }
    const auto share_of_place = [](double s) {
        return (std::min(s, 60000.0) + 4.0 * std::max(s - 60000.0, 0.0)) / kDirtyM;
    };
    CHECK(follows(places, share_of_place));
    CHECK(follows(heights, [](double h) { return h / 3.0; }));
    // Twin: debris a twentieth less than drawn.
    CHECK_FALSE(follows(places, [](double s) {
        return (std::min(s, 60000.0) + 3.8 * std::max(s - 60000.0, 0.0)) / 174000.0;
    }));
}

TEST_CASE("points below a height and above it know nothing of each other") {
    const scenario::Model model = make_cut_model(0.5, kRoadM, 2.0);
    Days days(model, make_road(1.0), DrawnAs::kPlain);
    // Null: independent Poisson counts of means .2 and .8. The product of their
    // deviations has mean 0 and variance .2 x .8.
    const double low_mean = 0.2, high_mean = 0.8;
    std::vector<double> products;
    for (std::uint64_t b = 0; b < 3000; ++b) {
        const DayBlock& block = days.draw(b * kLanes);
        std::array<double, kLanes> low{}, high{};
        for (const FlatPoint& p : block.points)
            (p.height < 0.4 ? low : high)[p.lane] += 1;
        for (std::size_t j = 0; j < kLanes; ++j) {
            products.push_back((low[j] - low_mean) * (high[j] - high_mean));
        }
    }
    CHECK(has_mean(products, 0.0, std::sqrt(low_mean * high_mean)));
    CHECK_FALSE(has_mean(products, 0.05 * low_mean, std::sqrt(low_mean * high_mean)));
}

TEST_CASE("a setup with more hazard adds points and moves none") {
    const auto few = list_points(make_cut_model(0.5, kRoadM, 1.0), 1.0, 200);
    const auto many = list_points(make_cut_model(0.5, kRoadM, 7.0), 1.0, 200);
    std::vector<FlatPoint> kept;
    for (const FlatPoint& point : many) {
        if (point.height < 1.0) kept.push_back(point);
    }
    REQUIRE(many.size() > 5 * few.size());
    REQUIRE(kept.size() == few.size());
    for (std::size_t i = 0; i < few.size(); ++i) REQUIRE(is_same(few[i], kept[i]));
}

TEST_CASE("points come by day, then by place, within the course") {
    const scenario::Model model = make_cut_model(2.0, kRoadM);
    Days days(model, make_road(1.0), DrawnAs::kPlain);
    const DayBlock& block = days.draw(0);
    REQUIRE(block.points.size() > 50);
    for (std::size_t i = 0; i < block.points.size(); ++i) {
        const FlatPoint& point = block.points[i];
        CHECK((point.place_m >= 0.0 && point.place_m <= kRoadM));
        if (i == 0) continue;
        const FlatPoint& before = block.points[i - 1];
        CHECK((before.lane < point.lane ||
               (before.lane == point.lane && before.place_m <= point.place_m)));
    }
    for (const double weight : block.weight) CHECK(weight == 1.0);
    for (const DayGroup group : block.group) CHECK(group == DayGroup::kPlain);
}

TEST_CASE("on uncertain days each wheel suffers what its hazard says, cause by cause") {
    // Null: given the days' values, counts are Poisson with the summed hazard. A tyre
    // softened to .93 of its pressure must still find all its points below the top drawn.
    const scenario::Model model = make_flat_race();
    for (const int wheel : {0, 1}) {
        for (const FlatCause cause :
             {FlatCause::kCut, FlatCause::kPinch, FlatCause::kFitting}) {
            for (const double softened : {1.0, 0.93}) {
                const Suffered s = count_suffered(model, {wheel, cause, softened, 0.0});
                CAPTURE(wheel, static_cast<int>(cause), softened, s.found, s.expected);
                REQUIRE(s.expected > 500.0);
                CHECK(agrees(s));
            }
        }
    }
}

TEST_CASE("where it may rain, wet roads find all their cuts") {
    scenario::Model model = make_flat_race();
    model.weather.rows[0].rain_chance = 0.1;
    CHECK(agrees(count_suffered(model, {1, FlatCause::kCut, 1.0, 1.0})));
    CHECK(agrees(count_suffered(model, {1, FlatCause::kCut, 1.0, 0.0})));
    // Twin: days drawn for a dry race hold too few points for a wet road.
    CHECK_FALSE(agrees(count_suffered(make_flat_race(), {1, FlatCause::kCut, 1.0, 1.0})));
}

TEST_CASE("twin: a hazard taken five per cent too high is found") {
    Suffered s = count_suffered(make_flat_race(), {});
    s.expected *= 1.05;
    CHECK_FALSE(agrees(s));
}

TEST_CASE("every instruction set draws the same points, after any other day") {
    const scenario::Model model = support::make_race_model();
    for (const DrawnAs drawn_as : {DrawnAs::kPlain, DrawnAs::kGrouped}) {
        Days first(model, make_road(4.0), drawn_as, base::InstructionSet::kBaseline);
        const DayBlock& expected = first.draw(6400);
        for (const auto set : base::supported_instruction_sets()) {
            Days other(model, make_road(4.0), drawn_as, set);
            other.draw(0);
            const DayBlock& found = other.draw(6400);
            CAPTURE(base::name_instruction_set(set));
            REQUIRE(found.points.size() == expected.points.size());
            for (std::size_t i = 0; i < found.points.size(); ++i) {
                REQUIRE(is_same(found.points[i], expected.points[i]));
            }
            CHECK(found.weight == expected.weight);
        }
    }
}
