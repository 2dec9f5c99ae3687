#include "findings/questions/break_even.h"

#include <cmath>
#include <functional>

#include "support/catch.h"

using namespace flattail::findings;

namespace {

std::vector<ScanPoint> scan(double from, double to, double error,
                            const std::function<double(double)>& difference) {
    std::vector<ScanPoint> points;
    for (int i = 0; i <= 32; ++i) {
        const double x = from + (to - from) * i / 32.0;
        points.push_back({x, {difference(x), error}});
    }
    return points;
}

}  // namespace

TEST_CASE("a straight line breaks even where it meets 0, give or take error over slope") {
    // y = 3 (x - 2.7), error .5: limits 2.7 -+ 1.96 .5 / 3 (exact for a line).
    const auto found =
        find_break_even(scan(0, 8, .5, [](double x) { return 3 * (x - 2.7); }));
    REQUIRE(found.size() == 1);
    CHECK(found[0].x == Approx(2.7));
    CHECK(found[0].interval.low == Approx(2.7 - 1.959964 * .5 / 3));
    CHECK(found[0].interval.high == Approx(2.7 + 1.959964 * .5 / 3));
    CHECK(found[0].rises);
    CHECK_FALSE(found[0].is_open_below);
    CHECK_FALSE(found[0].is_open_above);
}

TEST_CASE("two changes of sign are both reported") {
    // (x - 1)(x - 3): minus between 1 and 3. Chords of a parabola over steps of 1/8 meet
    // 0 within (1/8)^2 / 8 over the slope 2 of the roots.
    const auto found =
        find_break_even(scan(0, 4, .01, [](double x) { return (x - 1) * (x - 3); }));
    REQUIRE(found.size() == 2);
    CHECK(found[0].x == Approx(1).margin(.002));
    CHECK(found[1].x == Approx(3).margin(.002));
    CHECK_FALSE(found[0].rises);
    CHECK(found[1].rises);
}

TEST_CASE("where the sign never changes nothing is reported") {
    CHECK(find_break_even(scan(0, 4, .1, [](double x) { return 1 + x; })).empty());
    // Undecided at one end, but on one side all along.
    CHECK(find_break_even(scan(0, 4, 1, [](double x) { return .5 + x; })).empty());
    // Touches 0 and turns back: two changes within the error are none.
    CHECK(find_break_even(scan(0, 4, .1, [](double x) {
              return (x - 2) * (x - 2) - .01;
          })).empty());
}

TEST_CASE("noise about one change of sign is one change") {
    const auto found = find_break_even(
        scan(0, 4, .4, [](double x) { return x - 2 + .3 * std::sin(40 * x); }));
    REQUIRE(found.size() == 1);
    CHECK(found[0].interval.low < 2);
    CHECK(found[0].interval.high > 2);
}

TEST_CASE("an interval that runs out of the range says so") {
    const auto found = find_break_even(scan(0, 4, 1, [](double x) { return x - 3.5; }));
    REQUIRE(found.size() == 1);
    CHECK(found[0].is_open_above);
    CHECK(found[0].interval.high == 4);
    CHECK_FALSE(found[0].is_open_below);
}

TEST_CASE("a difference without error breaks even in a point") {
    const auto found = find_break_even(scan(0, 4, 0, [](double x) { return 2.05 - x; }));
    REQUIRE(found.size() == 1);
    CHECK(found[0].x == Approx(2.05));
    CHECK(found[0].interval.low == Approx(2.05));
    CHECK(found[0].interval.high == Approx(2.05));
}
