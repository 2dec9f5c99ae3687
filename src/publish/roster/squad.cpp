#include "publish/roster/squad.h"

#include <algorithm>

#include "publish/brief/page_html.h"
#include "publish/pages/page_tables.h"
#include "publish/pages/text.h"
#include "publish/tables/csv_text.h"
#include "publish/templates.h"
#include "publish/words.h"

namespace flattail::publish {

namespace {

constexpr int kLongestName = 48;  // columns

const char* describe_certainty(const Findings& findings) {
    if (findings.setups.size() < 2) return "";
    return name_certainty(findings.verdict.certainty);
}

std::vector<std::string> list_fields(const SquadLine& line) {
    std::vector<std::string> fields{line.athlete, line.folder, line.scenario_file};
    if (!line.advised) {
        fields.resize(13);
        std::string all;
        for (const std::string& problem : line.problems) {
            all += (all.empty() ? "" : " | ") + problem;
        }
        fields.push_back(all.empty() && line.is_written ? "no setup can be advised"
                                                        : all);
        return fields;
    }
    const SetupFindings& setup = *line.advised;
    const bool has_goal = !line.goals_s.empty();
    for (std::string field :
         {setup.name, line.certainty, csv_time(setup.typical_s),
          csv_time(setup.nine_in_ten_s.low), csv_time(setup.nine_in_ten_s.high),
          has_goal ? csv_number(line.goals_s.front()) : std::string(),
          has_goal ? csv_number(setup.goals.front().value) : std::string(),
          csv_number(setup.flat.value), csv_number(setup.no_finish.value),
          line.pair ? csv_number(line.pair->mean_s.value) : std::string(),
          std::string()}) {
        fields.push_back(std::move(field));
    }
    return fields;
}

PageValues list_line(const SquadLine& line) {
    PageValues values;
    values.texts = {
        {"athlete", shorten_end(clean_line(line.athlete), kLongestName)},
        {"folder", line.folder},
        {"race", shorten_end(clean_line(line.race), kLongestName)},
        {"start", line.start},
        {"certainty", line.certainty},
        {"setup", line.advised ? shorten_end(clean_line(line.advised->name), kLongestName)
                               : "no setup can be advised"},
        {"typical", ""},
        {"range", ""},
        {"goal", ""},
        {"flat", ""},
        {"no_finish", ""}};
    values.flags = {{"is_written", line.is_written}, {"is_missing", !line.is_written}};
    for (const std::string& problem : line.problems) {
        values.lists["problems"].push_back({{{"line", clean_line(problem)}}, {}, {}});
    }
    values.lists["problems"];
    if (!line.advised) return values;
    const SetupFindings& setup = *line.advised;
    values.texts["typical"] = format_duration(setup.typical_s);
    values.texts["range"] = format_duration(setup.nine_in_ten_s.low) + " to " +
                            format_duration(setup.nine_in_ten_s.high);
    if (!line.goals_s.empty()) {
        values.texts["goal"] = format_duration(line.goals_s.front()) + ": " +
                               format_out_of_100(setup.goals.front(), line.days);
    }
    values.texts["flat"] = format_out_of_100(setup.flat, line.days);
    values.texts["no_finish"] = format_out_of_100(setup.no_finish, line.days);
    return values;
}

}  // namespace

SquadLine summarise_athlete(const RosterRow& row, const Findings& findings) {
    SquadLine line;
    line.athlete = row.athlete;
    line.folder = row.folder;
    line.scenario_file = row.source.path;
    line.race = findings.facts.race_name;
    line.start = format_clock(findings.facts.start_clock_s);
    line.certainty = describe_certainty(findings);
    line.goals_s = findings.goals_s;
    line.days = count_days(findings);
    line.is_written = true;
    const int advised = find_advised(findings);
    if (advised < 0) return line;
    line.advised = findings.setups[static_cast<std::size_t>(advised)];
    const auto pair = std::find_if(
        findings.pairs.begin(), findings.pairs.end(),
        [advised](const PairFindings& found) { return found.setup == advised; });
    if (pair != findings.pairs.end()) line.pair = *pair;
    return line;
}

std::string write_roster_csv(const std::vector<SquadLine>& lines) {
    CsvText csv({"athlete", "folder", "scenario", "setup", "certainty", "typical_s",
                 "nine_in_ten_low_s", "nine_in_ten_high_s", "goal_s", "goal_chance",
                 "flat_chance", "no_finish_chance", "net_against_s", "problem"});
    for (const SquadLine& line : lines) csv.add_row(list_fields(line));
    return csv.text();
}

std::string write_index_html(const std::vector<SquadLine>& lines) {
    PageValues values;
    values.texts["count"] = std::to_string(lines.size());
    for (const SquadLine& line : lines) values.lists["lines"].push_back(list_line(line));
    values.lists["lines"];
    return fill_template(find_template("roster.html"), values);
}

}  // namespace flattail::publish
