// Every figure of a brief is one of the tables, and says what the table says.
#include <cmath>
#include <map>

#include "publish/brief/content.h"
#include "publish/tables/csv_tables.h"
#include "publish/words.h"
#include "study/rule.h"
#include "support/catch.h"
#include "unit/publish/brief/brief_scenario.h"
#include "unit/publish/invented_findings.h"

using namespace flattail;
using namespace flattail::publish;
using namespace flattail::test;

namespace {

using Row = std::vector<std::string>;

Row split_fields(const std::string& line) {
    Row fields(1);
    bool quoted = false;
    for (const char c : line) {
        if (c == '"') {
            quoted = !quoted;
        } else if (c == ',' && !quoted) {
            fields.emplace_back();
        } else if (c != '\r') {
            fields.back() += c;
        }
    }
    return fields;
}

std::vector<Row> read_rows(const std::string& csv) {
    std::vector<Row> rows;
    for (const std::string& line : split_lines(csv)) rows.push_back(split_fields(line));
    return rows;
}

// The tables of the invented race, looked up by setup and figure.
class Tables {
  public:
    explicit Tables(const Findings& findings)
        : percentiles_(read_rows(write_percentiles_csv(findings))),
          tail_(read_rows(write_tail_risk_csv(findings))),
          paired_(read_rows(write_paired_csv(findings))) {}

    std::string time(const std::string& setup, const std::string& percent) const {
        for (const Row& row : percentiles_) {
            if (row[0] == setup && row[1] == percent)
                return format_duration(std::stod(row[2]));
        }
        return "missing";
    }
    Figure chance(const std::string& setup, const std::string& figure) const {
        const Row& row = find(tail_, setup, 1, figure);
        return {std::stod(row[4]), std::stod(row[5])};
    }
    std::string cost(const std::string& setup, const std::string& figure) const {
        return std::to_string(
                   std::lround(std::stod(find(tail_, setup, 1, figure)[6]) / 60.0)) +
               " min";
    }
    const Row& pair(const std::string& setup, const std::string& figure) const {
        return find(paired_, setup, 2, figure);
    }

  private:
    static const Row& find(const std::vector<Row>& rows, const std::string& setup,
                           std::size_t column, const std::string& figure) {
        for (const Row& row : rows) {
            if (row[0] == setup && row[column] == figure) return row;
        }
        throw std::runtime_error("no row " + figure);
    }
    std::vector<Row> percentiles_, tail_, paired_;
};

std::map<std::string, Row> list_cells(const BriefContent& content) {
    std::map<std::string, Row> cells;
    for (const BriefRow& row : content.rows) cells[row.label] = row.cells;
    return cells;
}

std::string say(const Figure& chance) {
    std::string text = format_out_of_100(chance, 93211.5) + " days in 100";
    if (chance.value <= 0.1) {
        std::string one_in = format_one_in(chance.value);
        for (std::size_t at = one_in.find(' '); at != std::string::npos;
             at = one_in.find(' ')) {
            one_in.replace(at, 1, "\xC2\xA0");
        }
        text += " (" + one_in + ")";
    }
    return text;
}

}  // namespace

TEST_CASE("the figures of a brief are those of the tables") {
    const Findings findings = invent_findings();
    const Tables tables(findings);
    const BriefContent content = make_content(findings, read_brief_scenario());
    auto cells = list_cells(content);
    REQUIRE(content.columns.size() == 2);
    CHECK(cells.size() == 7);
    for (std::size_t i = 0; i < 2; ++i) {
        const std::string setup = content.columns[i].name;
        CHECK(cells["Typical day"][i] == tables.time(setup, "50"));
        CHECK(cells["9 days in 10 are within"][i] ==
              tables.time(setup, "5") + " to " + tables.time(setup, "95"));
        CHECK(cells["Goal 2:35:00 met"][i] ==
              format_out_of_100(tables.chance(setup, "goal met"), 93211.5) +
                  " days in 100");
        CHECK(cells["A flat"][i] == say(tables.chance(setup, "a flat")));
        CHECK(cells["Lose 5 min or more to flats"][i] ==
              say(tables.chance(setup, "lost to flats or no finish")));
        CHECK(cells["What a flat costs"][i] ==
              "usually " + tables.cost(setup, "a flat costs, median") +
                  ", 1 in 10 over " +
                  tables.cost(setup, "a flat costs, exceeded by 1 in 10"));
        CHECK(cells["No finish"][i].find(say(tables.chance(setup, "no finish"))) == 0);
    }
}

TEST_CASE("the reasons of a brief are those of the tables") {
    const Findings findings = invent_findings();
    const Tables tables(findings);
    const BriefContent content = make_content(findings, read_brief_scenario());
    CHECK(content.advice == "Ride Latex");
    CHECK(content.certainty == "FIRM");
    const Row& net = tables.pair("Latex", "mean judged difference");
    const Row& range = tables.pair("Latex", "could be, over what is not known");
    const auto span = [](const std::string& seconds) {
        return format_span(std::abs(std::round(std::stod(seconds))));
    };
    CHECK(content.reasons.at(0) ==
          "About " + span(net[6]) + " faster than Butyl (on now), flats counted; " +
              span(range[9]) + " to " + span(range[8]) + " faster is possible.");
    CHECK(content.reasons.at(1) ==
          "Goal 2:35:00 met on 50 race days in 100 instead of 36.");
    CHECK(content.reasons.at(2) ==
          "Of 100 ways the unknown facts could turn out, it is ahead by " +
              findings.verdict.rule + " in 98.");
}

TEST_CASE("chosen to finish, a brief says first how often there is no finish") {
    Findings findings = invent_findings();
    CHECK(make_content(findings, read_brief_scenario()).reasons.at(0).find("About") == 0);
    findings.verdict.rule = study::kFinishRule;
    findings.setups[0].no_finish = {.006, 1e-4};
    findings.setups[1].no_finish = {.003, 1e-4};
    const BriefContent content = make_content(findings, read_brief_scenario());
    CHECK(content.reasons.at(0) == "No finish on 0.3 race days in 100 instead of 0.6.");
    CHECK(content.reasons.at(1).find("About") == 0);
}

TEST_CASE("crosses are explained where a dot is one") {
    Findings findings = invent_findings();
    for (SetupFindings& setup : findings.setups) setup.no_finish = {.009, 1e-4};
    CHECK_FALSE(make_content(findings, read_brief_scenario()).has_crosses);
    findings.setups[0].no_finish = {.011, 1e-4};
    CHECK(make_content(findings, read_brief_scenario()).has_crosses);
}

TEST_CASE("a toss-up keeps what is fitted and says so") {
    Findings findings = invent_findings();
    findings.verdict.certainty = Certainty::kTossUp;
    const BriefContent content = make_content(findings, read_brief_scenario());
    CHECK(content.advice == "Keep Butyl (on now)");
    CHECK(content.columns.at(0).role == "ride this");
    CHECK(content.columns.at(1).role == "next best");
    CHECK(content.deadlines.empty());  // 400 km ridden
}

TEST_CASE("where every setup is ruled out, none is advised and the rules are told") {
    Findings findings = invent_findings();
    findings.verdict.choice = -1;
    for (SetupFindings& setup : findings.setups) {
        setup.vetoed = true;
        setup.cautions = {"over the rim's limit"};
    }
    const BriefContent content = make_content(findings, read_brief_scenario());
    CHECK(content.advice == "No setup can be advised");
    REQUIRE(content.blocks.front().title == "RULED OUT");
    CHECK(content.blocks.front().lines.size() == 2);
}
