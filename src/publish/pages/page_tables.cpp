#include "publish/pages/page_tables.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "publish/pages/text.h"
#include "publish/pages/text_table.h"
#include "publish/words.h"

namespace flattail::publish {

namespace {

// Beyond five goals the columns leave too little room for names.
constexpr std::size_t kMostGoals = 5;

using Lines = std::vector<std::string>;

bool is_any_vetoed(const Findings& findings) {
    return std::any_of(findings.setups.begin(), findings.setups.end(),
                       [](const SetupFindings& setup) { return setup.vetoed; });
}

void append_wrapped(Lines& lines, const std::string& text, const PageOptions& options,
                    const std::string& head) {
    for (const std::string& line : wrap(text, options.width, head)) {
        lines.push_back(paint(line, Ink::kFaint, options.colour));
    }
}

// The cause that ends most days of a setup, or nothing.
const CauseRow* find_main_cause(const SetupFindings& setup) {
    const auto& causes = setup.no_finish_causes;
    const auto found = std::max_element(causes.begin(), causes.end(),
                                        [](const CauseRow& a, const CauseRow& b) {
                                            return a.chance.value < b.chance.value;
                                        });
    return found == causes.end() || found->chance.value <= 0.0 ? nullptr : &*found;
}

std::string describe_no_finish(const SetupFindings& setup) {
    if (setup.no_finish.value <= 0.0) return "none seen";
    const std::string often = format_one_in(setup.no_finish.value);
    const CauseRow* cause = find_main_cause(setup);
    return cause == nullptr ? often : often + ": " + cause->cause;
}

std::string format_cost(double cost_s) {
    return std::isfinite(cost_s) ? format_duration(cost_s) : "-";
}

void add_parts(TextTable& table) {
    table.columns.push_back({{"ROLLING"}});
    table.columns.push_back({{"AIR", "LOST"}});
    table.columns.push_back({{"WEIGHT"}});
    table.columns.push_back({{"FLATS *"}});
}

TextTable begin_pairs(const Findings& findings, bool has_parts) {
    TextTable table;
    table.corner =
        "AGAINST " + findings.setups[static_cast<std::size_t>(findings.against)].name;
    if (has_parts) {
        add_parts(table);
    } else {
        table.columns.push_back({{"TYPICAL", "DAY"}});
        table.columns.push_back({{"FASTER ON,", "DAYS IN 100"}});
    }
    table.columns.push_back({{"NET *"}});
    table.columns.push_back({{"COULD BE **", "(9 IN 10)"}});
    return table;
}

TextRow lay_pair(const Findings& findings, const PairFindings& pair, bool has_parts) {
    TextRow row = begin_row(findings, static_cast<std::size_t>(pair.setup));
    if (has_parts) {
        for (const Figure* part :
             {&pair.rolling_s, &pair.air_lost_s, &pair.mass_s, &pair.flats_s}) {
            row.cells.push_back(format_difference(part->value));
        }
    } else {
        row.cells.push_back(format_difference(pair.median_s.value));
        row.cells.push_back(format_out_of_100(pair.faster, count_days(findings)));
    }
    row.cells.push_back(format_difference(pair.mean_s.value));
    row.cells.push_back(format_difference_range(pair.could_be_s));
    return row;
}

}  // namespace

TextRow begin_row(const Findings& findings, std::size_t setup) {
    TextRow row;
    row.name = findings.setups[setup].name;
    row.mark = "  ";
    if (findings.setups[setup].vetoed) {
        row.mark = "x ";
        row.ink = Ink::kFaint;
    } else if (findings.setups.size() > 1 &&
               static_cast<int>(setup) == find_advised(findings)) {
        row.mark = "> ";
        row.ink = Ink::kStrong;
    }
    return row;
}

int find_advised(const Findings& findings) {
    const bool keeps =
        findings.verdict.choice >= 0 &&
        findings.verdict.certainty == Certainty::kTossUp &&
        !findings.setups[static_cast<std::size_t>(findings.against)].vetoed;
    return keeps ? findings.against : findings.verdict.choice;
}

double count_days(const Findings& findings) {
    const double days = findings.facts.effective_races;
    return days > 0.0
               ? days
               : static_cast<double>(std::max<std::int64_t>(findings.facts.races, 1));
}

Lines lay_setups(const Findings& findings, const PageOptions& options) {
    const bool has_goal = !findings.goals_s.empty();
    const std::string lost = format_span(findings.lost_by_flats_s);
    TextTable table;
    table.columns.push_back({{"TYPICAL", "DAY"}});
    table.columns.push_back({{"9 DAYS IN 10", "ARE WITHIN"}});
    if (has_goal) table.columns.push_back({{"GOAL"}, Align::kEnd, 3});
    table.columns.push_back({{"A FLAT"}});
    table.columns.push_back({{"LOSE", upper_ascii(lost)}});
    table.columns.push_back({{"NO", "FINISH"}});
    const double days = count_days(findings);
    for (std::size_t i = 0; i < findings.setups.size(); ++i) {
        const SetupFindings& setup = findings.setups[i];
        TextRow row = begin_row(findings, i);
        row.cells = {format_duration(setup.typical_s),
                     format_duration_range(setup.nine_in_ten_s)};
        if (has_goal) row.cells.push_back(format_out_of_100(setup.goals.front(), days));
        for (const Figure* chance : {&setup.flat, &setup.lose_long, &setup.no_finish}) {
            row.cells.push_back(format_out_of_100(*chance, days));
        }
        table.rows.push_back(std::move(row));
    }
    Lines lines = lay_table(table, options);
    int width = 0;
    for (const TextRow& row : table.rows) {
        width = std::max(width, measure_width(row.mark + row.name));
    }
    width = std::min(width + measure_figures(table), options.width);
    lines.insert(lines.begin(), paint(pad_start("OUT OF 100 RACE DAYS", width),
                                      Ink::kStrong, options.colour));
    append_wrapped(lines,
                   "LOSE " + upper_ascii(lost) + ": " + lost +
                       " or more lost to flats, or the race lost to one.",
                   options, "  ");
    if (is_any_vetoed(findings)) {
        append_wrapped(lines, "x: ruled out, see CAUTION; shown, never chosen.", options,
                       "  ");
    }
    return lines;
}

Lines lay_goals(const Findings& findings, const PageOptions& options) {
    if (findings.goals_s.size() < 2) return {};
    const std::size_t count = std::min(findings.goals_s.size(), kMostGoals);
    TextTable table;
    table.corner = "GOAL MET, DAYS IN 100";
    for (std::size_t goal = 0; goal < count; ++goal) {
        table.columns.push_back({{format_duration(findings.goals_s[goal])}});
    }
    for (std::size_t i = 0; i < findings.setups.size(); ++i) {
        TextRow row = begin_row(findings, i);
        for (std::size_t goal = 0; goal < count; ++goal) {
            row.cells.push_back(
                format_out_of_100(findings.setups[i].goals[goal], count_days(findings)));
        }
        table.rows.push_back(std::move(row));
    }
    return lay_table(table, options);
}

Lines lay_flat_costs(const Findings& findings, const PageOptions& options) {
    const bool has_any = std::any_of(
        findings.setups.begin(), findings.setups.end(), [](const SetupFindings& setup) {
            return setup.flat.value > 0.0 || setup.no_finish.value > 0.0;
        });
    if (!has_any) return {};
    TextTable table;
    table.corner = "WHAT A FLAT COSTS";
    table.columns = {{{"USUALLY"}},
                     {{"1 IN 10", "OVER"}},
                     {{"NO FINISH,", "MOSTLY BECAUSE"}, Align::kStart, 3}};
    // Names come first; the reason takes what they leave of the line.
    int name_width = measure_width(table.corner);
    for (const SetupFindings& setup : findings.setups) {
        name_width = std::max(name_width, 2 + measure_width(setup.name));
    }
    name_width = std::min(name_width, options.width * 3 / 10);
    const int reason_width = options.width - name_width - 2 - 9 - 2 - 9 - 3;
    for (std::size_t i = 0; i < findings.setups.size(); ++i) {
        const SetupFindings& setup = findings.setups[i];
        TextRow row = begin_row(findings, i);
        row.cells = {format_cost(setup.flat_costs_s),
                     format_cost(setup.flat_costs_often_s),
                     shorten_end(describe_no_finish(setup), reason_width)};
        table.rows.push_back(std::move(row));
    }
    return lay_table(table, options);
}

Lines lay_pairs(const Findings& findings, const PageOptions& options) {
    if (findings.pairs.empty()) return {};
    const bool has_parts =
        std::all_of(findings.pairs.begin(), findings.pairs.end(),
                    [](const PairFindings& pair) { return pair.parts_known; });
    TextTable table = begin_pairs(findings, has_parts);
    for (const PairFindings& pair : findings.pairs) {
        table.rows.push_back(lay_pair(findings, pair, has_parts));
    }
    Lines lines = lay_table(table, options);
    append_wrapped(
        lines,
        fmt::format(
            "average over all race days; minus is faster. A day "
            "without a finish counts as {}{}.",
            format_duration(findings.judged_no_finish_s),
            findings.judged_rule.empty() ? "" : " (" + findings.judged_rule + ")"),
        options, "  *  ");
    append_wrapped(lines,
                   "where NET would lie, 9 times in 10, if we knew what we don't: drag, "
                   "rolling, flat rates and the like.",
                   options, "  ** ");
    return lines;
}

}  // namespace flattail::publish
