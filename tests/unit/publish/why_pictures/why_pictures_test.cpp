// What moves the result, what would turn it and the trade-off, as drawn.
#include "publish/why_pictures/why_pictures.h"

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <limits>
#include <sstream>

#include "support/catch.h"
#include "support/scratch_directory.h"
#include "unit/publish/invented_findings.h"
#include "unit/publish/pictures/drawn_files.h"

using namespace flattail;
using namespace flattail::test;

namespace {

FactFindings invent_fact(const std::string& label, double low_s, double high_s) {
    FactFindings fact;
    fact.name = "fact." + label;
    fact.label = label;
    fact.unit = "per 1000 km";
    fact.low = 0.2022;
    fact.high = 0.8168;
    fact.at_low_s = {low_s, 1};
    fact.at_high_s = {high_s, 1};
    return fact;
}

// A straight line through 0 at `turns_at`, over 0 to 10.
BreakEvenFindings invent_scan(BreakEvenQuestion question, int setup, double turns_at) {
    BreakEvenFindings found;
    found.question = question;
    found.setup = setup;
    found.now = 1.5;
    found.range = {0, 10};
    for (int i = 0; i <= 20; ++i)
        found.scan.push_back({i * .5, {20 * (i * .5 - turns_at), 4}});
    if (turns_at > 0 && turns_at < 10) {
        found.changes.push_back({turns_at, {turns_at - .3, turns_at + .4}});
    }
    return found;
}

// The second setup is chosen against the first. Invented figures.
WhyFindings invent_why(const std::vector<std::string>& names) {
    WhyFindings why;
    why.race = invent_findings(names);
    for (std::size_t s = 0; s < names.size(); ++s) {
        const double shift_s = 40.0 * static_cast<double>(s);
        TradeOffRow row;
        row.setup = static_cast<int>(s);
        row.typical_s = {9300 - shift_s, 2};
        row.bad_days_s = {10200 + (s % 2 == 0 ? 1.5 : -1) * shift_s, 15};
        row.beaten_by = s == 0 && names.size() > 1 ? 1 : -1;
        why.trade_off.push_back(row);
    }
    if (names.size() < 2) return why;
    MovesFindings moves;
    moves.setup = 1;
    moves.facts = {invent_fact("small", -84, -80), invent_fact("noise", -84, -82),
                   invent_fact("large", -150, 20)};
    for (int i = 0; i < 9; ++i) {
        moves.facts.push_back(invent_fact("a fact with a very long label, number " +
                                              std::to_string(i) + std::string(80, 'm'),
                                          -100, -60 - i));
    }
    why.moves = {moves};
    why.break_even = {invent_scan(BreakEvenQuestion::kFlatRate, 1, 4.5),
                      invent_scan(BreakEvenQuestion::kRepairTime, 1, 30),
                      invent_scan(BreakEvenQuestion::kRollingGain, 1, 1.4)};
    return why;
}

Svgs draw_why(const WhyFindings& why) {
    const ScratchDirectory scratch;
    return read_svgs(write_why_pictures(why, scratch.path()), scratch.path());
}

std::string find_table(const publish::PictureSet& set, const std::string& name) {
    for (const auto& table : set.tables) {
        if (table.name == name) return table.text;
    }
    return "";
}

std::vector<std::string> split_row(const std::string& line) {
    std::vector<std::string> fields;
    std::stringstream stream(line);
    for (std::string field; std::getline(stream, field, ',');) fields.push_back(field);
    return fields;
}

// Where marks stand, in pixels of the wide page; its axes are read from the script.
std::vector<std::pair<double, double>> read_marks(const publish::PictureSet& set) {
    const std::string& script = set.pictures.back().script;
    const auto read = [&](const std::string& name) {
        return std::stod(
            script.substr(script.find('\n' + name + " = ") + name.size() + 4));
    };
    const double x_px = 638.0 / (read("X_HIGH") - read("X_LOW"));
    const double y_px = 300.0 / (read("Y_HIGH") - read("Y_LOW"));
    std::vector<std::pair<double, double>> marks;
    const auto lines = split_lines(find_table(set, "trade-off-marks.csv"));
    for (std::size_t i = 1; i < lines.size(); ++i) {
        const auto fields = split_row(lines[i]);
        marks.emplace_back(x_px * std::stod(fields[3]), y_px * std::stod(fields[4]));
    }
    return marks;
}

double find_closest(const std::vector<std::pair<double, double>>& marks) {
    double closest = 1e9;
    for (std::size_t i = 0; i < marks.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            closest = std::min(closest, std::hypot(marks[i].first - marks[j].first,
                                                   marks[i].second - marks[j].second));
        }
    }
    return closest;
}

}  // namespace

TEST_CASE("pictures of why hold no clipped or colliding text, with 1 to 8 setups") {
    // Without a second setup there is nothing to turn, move or trade.
    check_svgs(draw_why(invent_why(list_hard_names(1))), 0);
    for (const std::size_t setups : {2U, 4U, 8U}) {
        check_svgs(draw_why(invent_why(list_hard_names(setups))), 6);
    }
}

TEST_CASE("bars are the longest first, and what computing error could make has none") {
    publish::PictureSet set;
    publish::add_moves(invent_why({"Butyl", "Latex"}), set);
    const auto lines = split_lines(find_table(set, "moves.csv"));
    REQUIRE(lines.size() == 9);  // a header and eight bars
    double longest = 1e9;
    for (std::size_t i = 1; i < lines.size(); ++i) {
        const auto fields = split_row(lines[i]);
        const double length = std::abs(std::stod(fields[2]) - std::stod(fields[1]));
        CHECK(length <= longest);
        longest = length;
        CHECK(fields[6] != "fact.noise");
    }
    CHECK(split_row(lines[1])[6] == "fact.large");
    CHECK(set.pictures[0].script.find("4 more facts move it by up to 33 s each") !=
          std::string::npos);
}

TEST_CASE(
    "a fact that is told apart gets a bar; the same one with larger errors does not") {
    const auto count_bars = [](double error_s) {
        WhyFindings why = invent_why({"Butyl", "Latex"});
        FactFindings small = invent_fact("small", -90, -80);
        small.at_low_s.standard_error = small.at_high_s.standard_error = error_s;
        why.moves[0].facts = {invent_fact("large", -150, 20), small};
        publish::PictureSet set;
        publish::add_moves(why, set);
        return split_lines(find_table(set, "moves.csv")).size() - 1;
    };
    CHECK(count_bars(1.0) == 2);
    CHECK(count_bars(5.0) == 1);
}

TEST_CASE("the flat rate comes first, what turns has a panel, what never does is told") {
    const Svgs svgs = draw_why(invent_why({"Butyl", "Latex"}));
    CHECK(shows(svgs, "break-even.svg", "now 1.5 x; turns at 4.5 x (4.2 x to 4.9 x)"));
    CHECK(shows(svgs, "break-even.svg", "Rolling gain"));
    CHECK_FALSE(shows(svgs, "break-even.svg", "Repair time"));
    CHECK(shows(svgs, "break-even.svg", "never within reason: repair time"));
    CHECK(shows(svgs, "break-even.svg", "Butyl ahead"));
}

TEST_CASE("a difference of chances is told in race days, and up is better") {
    WhyFindings why = invent_why({"Butyl", "Latex"});
    publish::PictureSet in_time, in_chance;
    publish::add_break_even(why, in_time);
    why.in_chance = true;
    why.race.verdict.rule = "chance to finish";
    for (BreakEvenFindings& found : why.break_even) {
        for (ScanRow& row : found.scan) {
            row.difference = {row.difference.value / 1000, .004};
        }
    }
    publish::add_break_even(why, in_chance);
    CHECK(in_time.pictures[0].script.find("WIDE_LEFT = 'Butyl ahead'") !=
          std::string::npos);
    CHECK(in_chance.pictures[0].script.find("WIDE_LEFT = 'Latex ahead'") !=
          std::string::npos);
    const Svgs svgs = draw_why(why);
    check_svgs(svgs, 6);
    CHECK(shows(svgs, "break-even.svg", "race days in 100"));
    CHECK(shows(svgs, "break-even.svg", "by chance to finish"));
}

TEST_CASE(
    "a flat rate that turns nothing, or that cannot be told, is drawn and says so") {
    WhyFindings why = invent_why({"Butyl", "Latex"});
    why.break_even = {invent_scan(BreakEvenQuestion::kFlatRate, 1, 30)};
    CHECK(shows(draw_why(why), "break-even.svg", "now 1.5 x; never turns"));
    for (ScanRow& row : why.break_even[0].scan) row.difference = {0, 4};
    CHECK(shows(draw_why(why), "break-even.svg", "now 1.5 x; too close to tell"));
    why.break_even[0].changes = {{5, {0, 10}, true, true, false}};
    CHECK(shows(draw_why(why), "break-even.svg", "turns at 5.0 x (or anywhere)"));
}

TEST_CASE("marks of setups with the same times stand apart") {
    WhyFindings why = invent_why({"a", "b", "c", "d", "e", "f"});
    for (TradeOffRow& row : why.trade_off) {
        row.typical_s = {9300, 2};
        row.bad_days_s = {10200 + 1.0 * row.setup, 2};
    }
    publish::PictureSet set;
    publish::add_trade_off(why, set);
    const auto marks = read_marks(set);
    REQUIRE(marks.size() == 6);
    CHECK(find_closest(marks) > 18.9);
    // The search finds marks that do hide each other.
    auto hidden = marks;
    hidden[1] = {hidden[0].first + 2, hidden[0].second};
    CHECK(find_closest(hidden) < 3);
    const Svgs svgs = draw_why(why);
    check_svgs(svgs, 6);
    CHECK(shows(svgs, "trade-off.svg", "a mark at the end of a thin line"));
    CHECK_FALSE(shows(draw_why(invent_why({"Butyl", "Latex"})), "trade-off.svg",
                      "a mark at the end of a thin line"));
}

TEST_CASE("a setup without a finish on half of the days has no mark, and that is told") {
    WhyFindings why = invent_why({"Butyl", "Latex", "TPU"});
    why.trade_off[2].typical_s.value = std::numeric_limits<double>::infinity();
    const Svgs svgs = draw_why(why);
    check_svgs(svgs, 6);
    CHECK(shows(svgs, "trade-off.svg", "no finish on half of the days: no mark"));
    CHECK(shows(svgs, "trade-off.svg", "beaten on both counts by Latex"));
}

TEST_CASE("two drawings of one answer are the same bytes") {
    const WhyFindings why = invent_why(list_hard_names(3));
    CHECK(draw_why(why) == draw_why(why));
}

TEST_CASE("without gnuplot, scripts and tables are written and it says what to install") {
    const ScratchDirectory scratch;
    const std::string path = std::getenv("PATH");
    ::setenv("PATH", scratch.path().c_str(), 1);
    const Drawn drawn =
        write_why_pictures(invent_why({"Butyl", "Latex"}), scratch.path());
    ::setenv("PATH", path.c_str(), 1);
    REQUIRE(drawn.problems.size() == 1);
    CHECK(drawn.problems[0].find("gnuplot is not installed -> apt install gnuplot-nox") !=
          std::string::npos);
    CHECK(std::filesystem::exists(scratch.path() + "/moves.gp"));
    CHECK(std::filesystem::exists(scratch.path() + "/break-even-curves.csv"));
    CHECK_FALSE(std::filesystem::exists(scratch.path() + "/moves.svg"));
}
