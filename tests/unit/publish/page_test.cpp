#include <algorithm>
#include <limits>

#include "flattail/publish.h"
#include "publish/pages/text.h"
#include "publish/words.h"
#include "support/catch.h"
#include "unit/publish/invented_findings.h"

using namespace flattail;
using namespace flattail::publish;
using flattail::test::invent_findings;
using flattail::test::split_lines;

namespace {

constexpr double kNoFinish = std::numeric_limits<double>::infinity();

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

int find_widest(const std::string& page) {
    int widest = 0;
    for (const std::string& line : split_lines(page)) {
        widest = std::max(widest, measure_width(line));
    }
    return widest;
}

// The first line that begins with this text, after its mark.
std::string find_line(const std::string& page, const std::string& begin) {
    for (const std::string& line : split_lines(page)) {
        if (line.size() > 2 && line.compare(2, begin.size(), begin) == 0) return line;
    }
    return "";
}

void give_parts(Findings& findings) {
    for (PairFindings& pair : findings.pairs) {
        pair.parts_known = true;
        pair.rolling_s = {-82.0, 0.4};
        pair.mass_s = {-1.0, 0.1};
        pair.flats_s = {7.8, 0.5};
    }
}

std::string remove_colours(const std::string& text) {
    std::string plain;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text[at] == '\x1b')
            at = text.find('m', at);
        else
            plain += text[at];
    }
    return plain;
}

}  // namespace

TEST_CASE("the page of two setups reads as it should") {
    // Pinned text of invented figures; the cases below check its numbers one by one.
    const std::string expected =
        R"(Three Herons Middle, bike leg: 88.4 km, 423 m up, start Sun 14 June 08:05
Tamsin Orrelwick  70 kg  200 W  goal 2:35:00         2 setups, 100,000 race days
Invented example: rider, place and day are fictional.

                                                    OUT OF 100 RACE DAYS
                  TYPICAL     9 DAYS IN 10                  LOSE      NO
                      DAY       ARE WITHIN   GOAL  A FLAT  5 MIN  FINISH
  Butyl (on now)  2:36:20  2:29:28-2:43:12     36     4.0    3.7     0.3
> Latex           2:35:02  2:28:10-2:41:54     50     4.7    4.4     0.4
  LOSE 5 MIN: 5 min or more lost to flats, or the race lost to one.

                            1 IN 10   NO FINISH,
WHAT A FLAT COSTS  USUALLY     OVER   MOSTLY BECAUSE
  Butyl (on now)      8:41    17:10   1 in 300: no spare left
> Latex               8:42    17:11   1 in 230: no spare left

                        TYPICAL   FASTER ON,            COULD BE **
AGAINST Butyl (on now)      DAY  DAYS IN 100  NET *       (9 IN 10)
> Latex                   -1:19           91  -1:13  -2:10 to -0:45
  *  average over all race days; minus is faster. A day without a finish counts
     as 3:36:20 (typical finish of Butyl (on now) + 1 h).
  ** where NET would lie, 9 times in 10, if we knew what we don't: drag,
     rolling, flat rates and the like.

RACE DAYS OUT OF 100 BY FINISH TIME   | goal 2:35:00
                 before             |                     later
                   2:29 :31 :33 :35 | :37 :39 :41 :43 :45 /none
  Butyl (on now)      2   5  11  18 |  21  19  12   6   -     6
  Latex               2   5  11  18 |  21  19  12   6   -     6

CHOICE   Latex, FIRM by average time.
         Latex is best in 98 of 100 ways the unknown facts could turn out.
         Goal 2:35:00 met on 50 race days in 100, against 36 with Butyl (on
         now).
PRICE    1 more day without a finish in 1,000 races than with Butyl (on now).
CAUTION  rim pressure limit not given: it was not checked

Computing error, 19 in 20 below: typical day 2 s, NET 2 s, counts 0.3.
Check code 7f3a-21c0, seed 18446744073709551615, flattail 9.8.7.
)";
    CHECK(write_page(invent_findings()) == expected);
}

TEST_CASE("every figure of a setup's line is that setup's own") {
    const Findings findings = invent_findings();
    const std::string page = write_page(findings);
    for (const SetupFindings& setup : findings.setups) {
        const std::string line = find_line(page, setup.name);
        CHECK(contains(line, format_duration(setup.typical_s)));
        CHECK(contains(line, format_duration_range(setup.nine_in_ten_s)));
        const double days = findings.facts.effective_races;
        CHECK(contains(line, " " + format_out_of_100(setup.goals[0], days) + " "));
        CHECK(contains(line, " " + format_out_of_100(setup.flat, days) + " "));
        CHECK(contains(line, " " + format_out_of_100(setup.lose_long, days) + " "));
        CHECK(contains(line, " " + format_out_of_100(setup.no_finish, days)));
    }
}

TEST_CASE("where the difference comes from is shown only when it is known") {
    Findings findings = invent_findings();
    CHECK_FALSE(contains(write_page(findings), "ROLLING"));
    give_parts(findings);
    const std::string page = write_page(findings);
    CHECK(contains(page, "ROLLING"));
    for (const char* part : {"-1:22", "-0:01", "+0:08", "-1:13"}) {
        CHECK(contains(page, part));
    }
    findings = invent_findings({"a", "b", "c"});
    give_parts(findings);
    findings.pairs[1].parts_known = false;
    CHECK_FALSE(contains(write_page(findings), "ROLLING"));
}

TEST_CASE("no line is wider than 80 columns, whatever the names") {
    const std::string endless(300, 'W');
    std::string wide;
    for (int i = 0; i < 100; ++i) wide += "\u8F2A\u578B ";
    for (const auto& names : std::vector<std::vector<std::string>>{
             {"one"},
             {endless, endless + "2"},
             {wide, "b", endless},
             {"1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12"}}) {
        Findings findings = invent_findings(names);
        for (int variant = 0; variant < 3; ++variant) {
            if (variant == 1) give_parts(findings);
            if (variant == 2) {
                findings.cutoff_s = 14400.0;
                findings.facts.race_name = endless;
                findings.facts.rider_name = wide;
                findings.verdict.reason = endless;
                findings.judged_rule = wide;
                findings.cautions = {endless};
                findings.setups.back().no_finish_causes = {{endless, {0.1, 0.1}}};
            }
            CHECK(find_widest(write_page(findings)) <= 80);
        }
    }
}

TEST_CASE("long and short races fit too") {
    for (const double factor : {0.1, 0.4, 6.0}) {
        Findings findings = invent_findings({"Butyl", "Latex"});
        give_parts(findings);
        for (double& goal_s : findings.goals_s) goal_s *= factor;
        for (SetupFindings& setup : findings.setups) {
            setup.typical_s *= factor;
            setup.nine_in_ten_s.low *= factor;
            setup.nine_in_ten_s.high = kNoFinish;
        }
        for (double& edge_s : findings.histogram.edges_s) edge_s *= factor;
        const std::string page = write_page(findings);
        CHECK(find_widest(page) <= 80);
        CHECK(contains(page, "no finish"));
        CHECK(contains(page, "| goal " + format_duration(findings.goals_s[0])));
    }
}

TEST_CASE("a wider terminal shows longer names, a narrow one counts as 80") {
    const std::string name(60, 'n');
    const Findings findings = invent_findings({name, "b"});
    PageOptions options;
    options.width = 140;
    CHECK(contains(find_line(write_page(findings, options), "nnn"), name));
    options.width = 20;
    CHECK(write_page(findings, options) == write_page(findings));
}

TEST_CASE("colours change nothing but colours") {
    Findings findings = invent_findings({"a", "b", "c"});
    findings.setups[2].vetoed = true;
    findings.setups[2].cautions = {"over the rim's limit"};
    PageOptions options;
    options.colour = Colour::kAnsi;
    const std::string coloured = write_page(findings, options);
    CHECK(contains(coloured, "\x1b[1m"));
    CHECK(remove_colours(coloured) == write_page(findings));
}

TEST_CASE("names cannot move the cursor") {
    const std::string page = write_page(invent_findings({"a\x1b[2Jb\nc", "d"}));
    CHECK_FALSE(contains(page, "\x1b"));
    CHECK(contains(page, "a?[2Jb c"));
}

TEST_CASE("a vetoed setup is shown, marked and explained") {
    Findings findings = invent_findings();
    findings.setups[1].vetoed = true;
    findings.setups[1].cautions = {"hookless rim above 5 bar"};
    findings.verdict.choice = 0;
    const std::string page = write_page(findings);
    CHECK(find_line(page, "Latex").substr(0, 2) == "x ");
    CHECK(contains(page, "CAUTION  Latex: hookless rim above 5 bar"));
    CHECK(contains(page, "x: ruled out"));
    CHECK_FALSE(contains(write_page(invent_findings()), "x: ruled out"));
}

TEST_CASE("nothing is advised when every setup is ruled out") {
    Findings findings = invent_findings();
    for (SetupFindings& setup : findings.setups) setup.vetoed = true;
    findings.verdict.choice = -1;
    findings.verdict.reason = "every setup breaks a rule";
    const std::string page = write_page(findings);
    CHECK(contains(page, "CHOICE   none: every setup breaks a rule."));
    CHECK_FALSE(contains(page, "is best in"));
    CHECK_FALSE(contains(page, "> "));
}

TEST_CASE("a toss-up keeps what is on the bike") {
    Findings findings = invent_findings();
    findings.verdict.certainty = Certainty::kTossUp;
    findings.verdict.share_agreeing = 0.61;
    const std::string page = write_page(findings);
    CHECK(contains(page, "CHOICE   Butyl (on now), TOSS-UP by average time: keep it"));
    CHECK(contains(page, "Latex is best in 61 of 100 ways"));
    CHECK(find_line(page, "Butyl").substr(0, 2) == "> ");
    CHECK_FALSE(contains(page, "met on"));
}

TEST_CASE("a toss-up with a vetoed setup on the bike still advises the choice") {
    Findings findings = invent_findings();
    findings.verdict.certainty = Certainty::kTossUp;
    findings.setups[0].vetoed = true;
    CHECK(contains(write_page(findings), "CHOICE   Latex, TOSS-UP"));
}

TEST_CASE("without a goal nothing speaks of one") {
    Findings findings = invent_findings();
    findings.goals_s.clear();
    for (SetupFindings& setup : findings.setups) setup.goals.clear();
    const std::string page = write_page(findings);
    CHECK_FALSE(contains(page, "goal"));
    CHECK_FALSE(contains(page, "GOAL"));
    CHECK_FALSE(contains(page, "|"));
}

TEST_CASE("several goals have a table of their own") {
    Findings findings = invent_findings();
    findings.goals_s = {9300.0, 9600.0};
    findings.setups[0].goals = {{0.36, 0.001}, {0.7123, 0.001}};
    findings.setups[1].goals = {{0.50, 0.001}, {0.83, 0.001}};
    const std::string page = write_page(findings);
    CHECK(contains(page, "goals 2:35:00, 2:40:00"));
    CHECK(contains(page, "GOAL MET, DAYS IN 100  2:35:00  2:40:00"));
    CHECK(contains(page, "     71\n"));
}

TEST_CASE("one setup stands alone: no differences, no choice") {
    const std::string page = write_page(invent_findings({"Only one"}));
    CHECK_FALSE(contains(page, "AGAINST"));
    CHECK_FALSE(contains(page, "CHOICE"));
    CHECK_FALSE(contains(page, "NET"));
    CHECK(contains(page, "1 setup,"));
}

TEST_CASE("a goal off the scale of finish times is said to be there") {
    Findings findings = invent_findings();
    findings.goals_s = {7000.0};
    CHECK(contains(write_page(findings), "goal 1:56:40: before all of these"));
    findings.goals_s = {19000.0};
    CHECK(contains(write_page(findings), "goal 5:16:40: after all of these"));
    findings.goals_s = {9310.0};
    CHECK_FALSE(contains(write_page(findings), "|"));
}

TEST_CASE("joined columns of finish times lose no day") {
    Findings findings = invent_findings({"a"});
    findings.histogram.edges_s.clear();
    for (int i = 0; i < 49; ++i) {
        findings.histogram.edges_s.push_back(8400.0 + 60.0 * i);
    }
    findings.histogram.shares = {std::vector<double>(50, 0.02)};
    findings.histogram.standard_errors = {std::vector<double>(50, 0.001)};
    findings.goals_s = {9300.0};
    const std::string page = write_page(findings);
    CHECK(find_widest(page) <= 80);
    CHECK(contains(page, "| goal 2:35:00"));
    const std::vector<std::string> lines = split_lines(page);
    const auto title = std::find_if(
        lines.begin(), lines.end(),
        [](const std::string& line) { return line.rfind("RACE DAYS OUT OF", 0) == 0; });
    REQUIRE(lines.end() - title > 3);
    // 16 of 50 equal bins end by the goal: 32 days in 100 stand left of the bar.
    const std::string row = *(title + 3);
    const auto sum_numbers = [](const std::string& text) {
        int sum = 0;
        for (std::size_t at = 0; at < text.size();) {
            const std::size_t end = std::min(text.find(' ', at), text.size());
            if (end > at && text[at] >= '0' && text[at] <= '9') {
                sum += std::stoi(text.substr(at, end - at));
            }
            at = end + 1;
        }
        return sum;
    };
    CHECK(sum_numbers(row.substr(0, row.find('|'))) == 32);
    CHECK(sum_numbers(row) == 100);
}

TEST_CASE("a study that was stopped says so") {
    Findings findings = invent_findings();
    CHECK_FALSE(contains(write_page(findings), "Stopped early"));
    findings.facts.stopped_early = true;
    CHECK(contains(write_page(findings), "Stopped early"));
}

TEST_CASE("races without flats have no table of what a flat costs") {
    Findings findings = invent_findings();
    for (SetupFindings& setup : findings.setups) {
        setup.flat = setup.no_finish = {0.0, 0.0};
        setup.flat_costs_s = setup.flat_costs_often_s =
            std::numeric_limits<double>::quiet_NaN();
    }
    const std::string page = write_page(findings);
    CHECK_FALSE(contains(page, "WHAT A FLAT COSTS"));
    CHECK_FALSE(contains(page, "nan"));
}

TEST_CASE("the folder of the tables closes the page, unbroken") {
    PageOptions options;
    options.tables_directory = "reports/" + std::string(100, 'x');
    const std::string page = write_page(invent_findings(), options);
    CHECK(split_lines(page).back() == "Tables: " + options.tables_directory);
}

TEST_CASE("a figure that is no number stops the page") {
    Findings findings = invent_findings();
    findings.pairs[0].mean_s.value = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS(write_page(findings), OurMistake);
    findings = invent_findings();
    findings.histogram.shares.pop_back();
    CHECK_THROWS_AS(write_page(findings), OurMistake);
    findings = invent_findings();
    findings.setups[1].goals.clear();
    CHECK_THROWS_AS(write_page(findings), OurMistake);
    findings = invent_findings();
    findings.verdict.choice = 2;
    CHECK_THROWS_AS(write_page(findings), OurMistake);
}

TEST_CASE("dry and wet days stand side by side where both can be") {
    Findings findings = invent_findings();
    CHECK_FALSE(contains(write_page(findings), "WET ON"));
    const ConditionRow row{9001.0, {0.031, 0.001}, {0.0, 0.0}};
    const ConditionRow other{8942.0, {0.052, 0.001}, {-59.0, 1.0}};
    const ConditionRow wet{9100.0, {0.12, 0.001}, {0.0, 0.0}};
    const ConditionRow other_wet{9080.0, {0.2, 0.001}, {-20.0, 1.0}};
    findings.conditions = {{"dry", {0.7, 0.002}, {row, other}},
                           {"wet", {0.3, 0.002}, {wet, other_wet}}};
    const std::string page = write_page(findings);
    CHECK(contains(page, "WET ON 30 OF 100 DAYS"));
    CHECK(contains(page, "2:29:02  -0:59     5.2    2:31:20  -0:20      20"));
}

TEST_CASE("the rule to finish says how often there is no finish") {
    Findings findings = invent_findings();
    CHECK_FALSE(contains(write_page(findings), "No finish on"));
    findings.verdict.rule = "chance to finish";
    findings.verdict.choice = 1;
    findings.verdict.certainty = Certainty::kFirm;
    findings.setups[0].no_finish.value = 0.01;
    findings.setups[1].no_finish.value = 0.005;
    CHECK(
        contains(write_page(findings), "No finish on 1 in 200 race days, against 1 in"));
}
