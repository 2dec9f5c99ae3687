// Dots, axes and names before anything is drawn.
#include "publish/pictures/picture_tables.h"

#include <cmath>
#include <limits>

#include "publish/pictures/label_width.h"
#include "publish/pictures/script.h"
#include "support/catch.h"
#include "unit/publish/invented_findings.h"

using namespace flattail;
using namespace flattail::publish;

namespace {

constexpr DotLayout kLayout{720.0, 20.0, 66.0, 11.0};
constexpr double kNever = std::numeric_limits<double>::infinity();

std::vector<double> make_even_times(double from_s, double to_s, std::size_t without) {
    std::vector<double> times(1000);
    for (std::size_t i = 0; i < 1000; ++i) {
        times[i] = i + without < 1000
                       ? from_s + (to_s - from_s) * (static_cast<double>(i) + 0.5) / 1000
                       : kNever;
    }
    return times;
}

std::size_t count(const std::vector<Dot>& dots, DotKind kind) {
    std::size_t n = 0;
    for (const Dot& dot : dots) n += dot.kind == kind ? 1 : 0;
    return n;
}

}  // namespace

TEST_CASE("fifty dots show the shares of a setup to one dot") {
    // 30 % before the goal, 10 % without a finish.
    const auto times = make_even_times(9000, 10000, 100);
    const auto dots = lay_dots(times, make_time_axis(8990, 10010, 9), kLayout, 9300);
    CHECK(dots.size() == 50);
    CHECK(count(dots, DotKind::kGoalMet) == 15);
    CHECK(count(dots, DotKind::kNoFinish) == 5);
    CHECK(count(dots, DotKind::kLater) == 30);
}

TEST_CASE("a dot stands on its side of the goal, within one dot of its time") {
    const auto times = make_even_times(9000, 10000, 0);
    const TimeAxis axis = make_time_axis(8990, 10010, 9);
    const double dot_s = 11.0 * (axis.high_s - axis.low_s) / (720.0 - 40.0 - 66.0);
    for (const double goal_s : {9300.0, 9310.0, 9317.5, 9700.0}) {
        for (const Dot& dot : lay_dots(times, axis, kLayout, goal_s)) {
            CHECK((dot.drawn_s <= goal_s) == (dot.finish_s <= goal_s));
            CHECK(std::abs(dot.drawn_s - dot.finish_s) <= 0.5 * dot_s + 1e-9);
        }
    }
}

TEST_CASE("no two dots stand on the same place") {
    const auto dots = lay_dots(make_even_times(9000, 11000, 200),
                               make_time_axis(8990, 10010, 9), kLayout, 9300);
    for (std::size_t i = 0; i < dots.size(); ++i) {
        for (std::size_t j = i + 1; j < dots.size(); ++j) {
            CHECK(
                (dots[i].drawn_s != dots[j].drawn_s || dots[i].height != dots[j].height));
        }
    }
}

TEST_CASE("the area under a curve is the share of race days on the axis") {
    const Findings findings = test::invent_findings();
    const TimeAxis axis = make_time_axis(7000, 12000, 9);
    const Curves curves = draw_curves(findings, {0}, axis);
    const auto lines = test::split_lines(curves.csv);
    double sum = 0.0;
    for (std::size_t i = 1; i < lines.size(); ++i) {
        const std::size_t from = lines[i].find(',', lines[i].find(',') + 1) + 1;
        sum += std::stod(lines[i].substr(from));
    }
    // 995 of 1,000 invented days finish; days in 100 per minute times minutes.
    CHECK(sum * (5000.0 / 240.0) / 60.0 == Approx(99.5).epsilon(0.005));
}

TEST_CASE("ticks are round, inside the axis and no more than asked for") {
    for (const double range_s : {25.0, 100.0, 700.0, 5000.0, 40000.0, 400000.0}) {
        const TimeAxis axis = make_time_axis(9001.5, 9001.5 + range_s, 6);
        CHECK(axis.ticks_s.size() >= 1);
        CHECK(axis.ticks_s.size() <= 6);
        for (const double tick : axis.ticks_s) {
            CHECK(tick >= axis.low_s);
            CHECK(tick <= axis.high_s);
        }
        CHECK(label_ticks(axis).size() == axis.ticks_s.size());
    }
}

TEST_CASE("names that are cut to fit still differ") {
    const std::vector<std::string> names{std::string(100, 'W') + "a",
                                         std::string(100, 'W') + "b"};
    const auto fitted = fit_names(names, 14.0, 200.0);
    CHECK(fitted[0] != fitted[1]);
    for (const std::string& name : fitted) CHECK(estimate_width_px(name, 14.0) <= 200.0);
}

TEST_CASE("text that would end a string or begin a line of a script cannot") {
    CHECK(quote_gnuplot("O'Neil") == "'O''Neil'");
    CHECK(quote_gnuplot("a\n!rm -r x") == "'a !rm -r x'");
    CHECK(quote_gnuplot("`date` @x \\n") == "'`date` @x \\n'");
}
