// Each sentence with a case in which it must be said, and cases in which it must not.
#include <algorithm>
#include <sstream>

#include "flattail/why.h"
#include "support/catch.h"
#include "unit/publish/invented_findings.h"

using namespace flattail;
using namespace flattail::test;

namespace {

// Latex (1) is chosen against butyl (0), 83 s faster on average. Invented figures.
WhyFindings invent_why() {
    WhyFindings why;
    why.race = invent_findings();
    why.race.against = 0;
    why.race.verdict.choice = 1;
    why.race.verdict.runner_up = 0;
    why.race.verdict.certainty = Certainty::kFirm;
    why.race.pairs.front().setup = 1;
    why.race.pairs.front().mean_s = {-83, 1};
    for (SetupFindings& setup : why.race.setups) {
        setup.vetoed = false;
        setup.mean_judged_s = {9500, 1};
        setup.goals.assign(why.race.goals_s.size(), Figure{.5, .001});
        setup.flats_per_race = {.04, .0004};
        setup.lose_long = {.04, .001};
        setup.no_finish = {.003, .0002};
    }
    why.race.setups[1].mean_judged_s.value -= 83;
    return why;
}

BreakEvenFindings invent_scan(BreakEvenQuestion question, double now, Interval range) {
    BreakEvenFindings found;
    found.question = question;
    found.setup = 1;
    found.now = now;
    found.range = range;
    for (int i = 0; i <= 32; ++i) {
        const double at = range.low + (range.high - range.low) * i / 32.0;
        found.scan.push_back({at, {-50, 1}});
    }
    return found;
}

std::string join(const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines) text += line + '\n';
    return text;
}

bool says(const std::vector<std::string>& lines, const std::string& part) {
    return join(lines).find(part) != std::string::npos;
}

MovesFindings invent_moves() {
    MovesFindings moves;
    moves.setup = 1;
    moves.not_known_s = {48, 2};
    moves.luck_s = {200, 3};
    moves.other_better = {.03, .01};
    FactFindings fact;
    fact.name = "inner.latex.rolling";
    fact.label = "latex: change of Crr";
    fact.low = -.00105;
    fact.high = .0002;
    fact.at_low_s = {-140, 2};
    fact.at_high_s = {20, 2};
    moves.facts = {fact};
    return moves;
}

}  // namespace

TEST_CASE("a flat rate that turns the answer is told, with what it is now") {
    WhyFindings why = invent_why();
    auto scan = invent_scan(BreakEvenQuestion::kFlatRate, 1.2, {.2, 7});
    scan.changes = {{2.7, {2.5, 2.9}, false, false, false}};
    why.break_even = {scan};
    CHECK(says(tell_why(why).flips, "goes flat over 2.7 x as often as"));
    CHECK(says(tell_why(why).flips, "(now 1.2 x; 19 in 20: 2.5 x to 2.9 x)"));
    CHECK_FALSE(says(tell_why(why).flips, "Never within reason"));
}

TEST_CASE("two changes of sign are two sentences, one on either side of now") {
    WhyFindings why = invent_why();
    auto scan = invent_scan(BreakEvenQuestion::kPower, 200, {120, 300});
    scan.changes = {{150, {148, 152}, false, false, true},
                    {260, {255, 266}, false, false, false}};
    why.break_even = {scan};
    CHECK(says(tell_why(why).flips, "power is under 150 W"));
    CHECK(says(tell_why(why).flips, "power is over 260 W"));
}

TEST_CASE("a change that cannot be told from now turns nothing") {
    WhyFindings why = invent_why();
    auto scan = invent_scan(BreakEvenQuestion::kRepairTime, 8, {2, 30});
    scan.changes = {{9, {7, 12}, false, false, false}};
    why.break_even = {scan};
    CHECK_FALSE(says(tell_why(why).flips, "changing a tube"));
    // Nor is it said to be out of reach.
    CHECK_FALSE(says(tell_why(why).flips, "Never within reason"));
}

TEST_CASE("never within reason needs every value of the scan decided") {
    WhyFindings why = invent_why();
    why.break_even = {invent_scan(BreakEvenQuestion::kRepairTime, 8, {2, 30})};
    CHECK(says(tell_why(why).flips, "Never within reason: repair time from 2.0 min"));
    why.break_even[0].scan.back().difference = {-1, 1};
    CHECK_FALSE(says(tell_why(why).flips, "Never within reason"));
    why.break_even[0].scan.back().difference = {-50, 1};
    why.break_even[0].not_asked = "this rider does not repair";
    CHECK_FALSE(says(tell_why(why).flips, "Never within reason"));
}

TEST_CASE("a toss-up has nothing to flip and no price") {
    WhyFindings why = invent_why();
    auto scan = invent_scan(BreakEvenQuestion::kFlatRate, 1.2, {.2, 7});
    scan.changes = {{2.7, {2.5, 2.9}, false, false, false}};
    why.break_even = {scan};
    why.race.setups[1].flats_per_race = {.06, .0004};
    why.race.verdict.certainty = Certainty::kTossUp;
    CHECK(tell_why(why).flips.empty());
    CHECK(tell_why(why).price.empty());
}

TEST_CASE("another wish flips the choice when another setup is surely better by it") {
    WhyFindings why = invent_why();
    why.race.setups[1].lose_long = {.06, .001};
    CHECK(says(tell_why(why).flips, "if losing less than 5 min to flats matters most"));
    CHECK(says(tell_why(why).flips, "on 2.0 more race days in 100"));
    why.race.setups[1].lose_long = {.045, .001};  // half a day in 100: not worth it
    CHECK_FALSE(says(tell_why(why).flips, "losing less than"));
    why.race.setups[1].lose_long = {.06, .02};  // not told apart
    CHECK_FALSE(says(tell_why(why).flips, "losing less than"));
    why.race.setups[1].lose_long = {.06, .001};
    why.race.setups[0].vetoed = true;  // never chosen
    CHECK_FALSE(says(tell_why(why).flips, "losing less than"));
}

TEST_CASE("all in all the one is named that is better in most ways") {
    WhyFindings why = invent_why();
    why.moves = {invent_moves()};
    const auto tell = [&](double other_better) {
        why.moves[0].other_better = {other_better, .001};
        return tell_why(why).changes;
    };
    const std::string butyl = why.race.setups[0].name;
    CHECK(says(tell(.002), "All in all Latex is the better one in over 99 of 100 ways"));
    CHECK(says(tell(.2), "All in all Latex is the better one in 80 of 100 ways"));
    CHECK(says(tell(.7), "All in all " + butyl + " is the better one in 70 of 100 ways"));
}

TEST_CASE("a gain below nothing is a loss") {
    WhyFindings why = invent_why();
    auto scan = invent_scan(BreakEvenQuestion::kRollingGain, 6.5, {-20, 20});
    scan.changes = {{-1.8, {-2.0, -1.6}, false, false, true}};
    why.break_even = {scan};
    CHECK(says(tell_turns(why), "if Latex rolls over 1.8 W worse than"));
    scan.changes = {{1.8, {1.6, 2.0}, false, false, true}};
    why.break_even = {scan};
    CHECK(says(tell_turns(why), "if Latex rolls less than 1.8 W better than"));
}

TEST_CASE("a turn says by what another setup would be ahead") {
    WhyFindings why = invent_why();
    auto scan = invent_scan(BreakEvenQuestion::kFlatRate, 1.2, {.2, 7});
    scan.changes = {{2.7, {2.5, 2.9}, false, false, false}};
    why.break_even = {scan};
    why.race.verdict.rule = "chance to finish";
    why.in_chance = true;
    CHECK(says(tell_turns(why), "is ahead by chance to finish if Latex goes flat over"));
    // Other rules break even by the average time.
    why.race.verdict.rule = "9 days in 10";
    why.in_chance = false;
    CHECK(says(tell_turns(why), "is ahead by average time if Latex goes flat over"));
}

TEST_CASE("for a rider turns are told without computing error and what never turns") {
    WhyFindings why = invent_why();
    auto scan = invent_scan(BreakEvenQuestion::kFlatRate, 1.2, {.2, 7});
    scan.changes = {{2.7, {2.5, 2.9}, false, false, false}};
    why.break_even = {scan, invent_scan(BreakEvenQuestion::kRepairTime, 8, {2, 30})};
    CHECK(says(tell_why(why).flips, "19 in 20: 2.5 x to 2.9 x"));
    CHECK(says(tell_why(why).flips, "Never within reason"));
    CHECK(says(tell_turns(why), "(now 1.2 x)."));
    CHECK_FALSE(says(tell_turns(why), "19 in 20"));
    CHECK_FALSE(says(tell_turns(why), "Never within reason"));
}

TEST_CASE("a price in flats is told where flats differ for sure") {
    WhyFindings why = invent_why();
    CHECK(tell_why(why).price.empty());
    why.race.setups[1].flats_per_race = {.06, .0004};
    CHECK(says(tell_why(why).price, "1 more flat in 50 races than with"));
    why.race.setups[1].flats_per_race = {.03, .0004};
    CHECK(says(tell_why(why).price, "1 fewer flat in 100 races than with"));
    why.race.setups[1].flats_per_race = {.06, .02};
    CHECK(tell_why(why).price.empty());
}

TEST_CASE("money has a price for a second only where seconds are surely saved") {
    WhyFindings why = invent_why();
    TradeOffRow row;
    row.setup = 1;
    row.price = 40;
    row.saved_s = {80, 1};
    row.price_per_s = .5;
    why.trade_off = {row};
    CHECK(says(tell_why(why).price, "It costs 40 more: 0.5 for each second saved."));
    why.trade_off[0].price_per_s.reset();
    CHECK(says(tell_why(why).price, "saves no time for sure"));
    why.trade_off[0].price.reset();
    CHECK_FALSE(says(tell_why(why).price, "It costs"));
}

TEST_CASE("riding the tubes in is advised when it spares a flat") {
    WhyFindings why = invent_why();
    why.fitting = {1, {.06, .001}, {.01, .0005}};
    CHECK(says(tell_why(why).price, "1 fewer flat in 100 races"));
    why.fitting.spared = {.0005, .0001};
    CHECK_FALSE(says(tell_why(why).price, "ride 50 km"));
    why.fitting.spared = {.01, .01};
    CHECK_FALSE(says(tell_why(why).price, "ride 50 km"));
}

TEST_CASE("a fact changes the advice only where it turns the sign beyond its error") {
    WhyFindings why = invent_why();
    why.information.why_not = "not asked here";
    why.moves = {invent_moves()};
    CHECK(says(tell_why(why).changes, "if \"latex: change of Crr\" is near 0.0002"));
    CHECK(says(tell_why(why).changes, "the better one in 97 of 100 ways"));
    why.moves[0].facts[0].at_high_s = {-20, 2};
    CHECK_FALSE(says(tell_why(why).changes, "is near"));
    why.moves[0].facts[0].at_high_s = {20, 11};
    CHECK_FALSE(says(tell_why(why).changes, "is near"));
    why.race.pairs.front().mean_s = {-1, 1};  // nothing is ahead, nothing can fall behind
    CHECK_FALSE(says(tell_why(why).changes, "ahead"));
    CHECK_FALSE(says(tell_why(why).changes, "All in all"));
}

TEST_CASE("finding out is advised where it pays, else called not worth it") {
    WhyFindings why = invent_why();
    why.moves = {invent_moves()};
    InformationRow row{
        Learning::kOneFact, "inner.latex.rolling", "latex: change of Crr", 1, {7, 1}};
    why.information.rows = {row};
    CHECK(
        says(tell_why(why).changes, "Worth finding out first: \"latex: change of Crr\""));
    CHECK(says(tell_why(why).changes, "(saves 7 s on average)"));
    why.information.rows[0].worth = {.2, .05};
    CHECK(says(tell_why(why).changes, "would hardly pay"));
    why.information.rows[0].worth = {7, 5};
    CHECK(says(tell_why(why).changes, "would hardly pay"));
    why.information.why_not = "a share of days is no average";
    CHECK_FALSE(says(tell_why(why).changes, "pay"));
}

TEST_CASE("the page of why fits 80 columns, with names of any length") {
    WhyFindings why = invent_why();
    why.race = invent_findings({"Butyl (on now)", std::string(70, 'L')});
    why.race.verdict.choice = 1;
    why.break_even = {invent_scan(BreakEvenQuestion::kPressure, 0, {-12, 12})};
    why.moves = {invent_moves()};
    why.moves[0].facts[0].label = std::string(90, 'f');
    std::istringstream page(write_why_page(why));
    int lines = 0;
    for (std::string line; std::getline(page, line); ++lines) CHECK(line.size() <= 84);
    CHECK(lines > 10);
}
