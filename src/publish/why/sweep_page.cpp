// A sweep on the terminal and as a table.
#include <fmt/format.h>

#include "flattail/sweep.h"
#include "publish/check_findings.h"
#include "publish/pages/page.h"
#include "publish/pages/page_tables.h"
#include "publish/pages/text.h"
#include "publish/pages/text_table.h"
#include "publish/tables/csv_text.h"
#include "publish/tables/write_files.h"
#include "publish/words.h"

namespace flattail {

namespace {

using namespace publish;
using Lines = std::vector<std::string>;

// Beyond four differences the columns leave no room for the choice.
constexpr std::size_t kMostPairs = 4;
constexpr int kHeadingColumns = 11;
constexpr int kChoiceColumns = 15;

const SetupFindings& get_against(const Findings& findings) {
    return findings.setups[static_cast<std::size_t>(findings.against)];
}

std::size_t count_pairs(const Findings& findings) {
    return std::min(findings.pairs.size(), kMostPairs);
}

std::string name_choice(const Findings& findings) {
    const int advised = find_advised(findings);
    if (advised < 0) return "none";
    return shorten_end(
        clean_line(findings.setups[static_cast<std::size_t>(advised)].name),
        kChoiceColumns);
}

TextTable begin_table(const SweepFindings& sweep) {
    const Findings& first = sweep.points.front().findings;
    TextTable table;
    table.corner = clean_line(sweep.key);
    table.columns.push_back({{"TYPICAL", "DAY"}});
    if (!first.goals_s.empty()) table.columns.push_back({{"GOAL"}});
    table.columns.push_back({{"A FLAT"}});
    std::vector<std::string> names;
    for (std::size_t p = 0; p < count_pairs(first); ++p) {
        const auto setup = static_cast<std::size_t>(first.pairs[p].setup);
        names.push_back(clean_line(first.setups[setup].name));
    }
    for (const std::string& name : shorten_names(names, kHeadingColumns)) {
        table.columns.push_back({{"NET *", name}});
    }
    if (!names.empty()) {
        table.columns.push_back({{"CHOICE"}, Align::kStart});
        table.columns.push_back({{""}, Align::kStart, 1});
    }
    return table;
}

TextRow lay_point(const SweepPoint& point) {
    const Findings& findings = point.findings;
    const SetupFindings& against = get_against(findings);
    const double days = count_days(findings);
    TextRow row;
    row.name = clean_line(point.value);
    row.cells.push_back(format_duration(against.typical_s));
    if (!findings.goals_s.empty()) {
        row.cells.push_back(format_out_of_100(against.goals.front(), days));
    }
    row.cells.push_back(format_out_of_100(against.flat, days));
    for (std::size_t p = 0; p < count_pairs(findings); ++p) {
        row.cells.push_back(format_difference(findings.pairs[p].mean_s.value));
    }
    if (!findings.pairs.empty()) {
        row.cells.push_back(name_choice(findings));
        row.cells.push_back(name_certainty(findings.verdict.certainty));
    }
    return row;
}

// The widest computing error of the differences shown.
double find_error(const SweepFindings& sweep) {
    double widest_s = 0.0;
    for (const SweepPoint& point : sweep.points) {
        for (const PairFindings& pair : point.findings.pairs) {
            widest_s = std::max(widest_s, 1.959964 * pair.mean_s.standard_error);
        }
    }
    return widest_s;
}

void append_notes(Lines& page, const SweepFindings& sweep, const PageOptions& options) {
    const Findings& first = sweep.points.front().findings;
    std::string text;
    if (first.pairs.empty()) {
        text = "Goal and flats are race days in 100.";
    } else {
        text = fmt::format(
            "Typical day, goal and flats (race days in 100) are those of {}. * Average "
            "difference to it over all race days; minus is faster. A day without a "
            "finish counts as {}.",
            clean_line(get_against(first).name), clean_line(first.judged_rule));
    }
    if (first.pairs.size() > kMostPairs) text += " More setups in sweep.csv.";
    if (!first.pairs.empty()) {
        text += " Computing error, 19 in 20 below: NET " +
                format_time_error(find_error(sweep)) + ".";
    }
    for (const std::string& line : wrap(text, options.width)) {
        page.push_back(paint(line, Ink::kFaint, options.colour));
    }
}

std::string write_goal(const SetupFindings& setup, bool error) {
    if (setup.goals.empty()) return "";
    return csv_number(error ? setup.goals.front().standard_error
                            : setup.goals.front().value);
}

std::vector<std::string> lay_csv_row(const SweepFindings& sweep, const SweepPoint& point,
                                     std::size_t s) {
    const Findings& f = point.findings;
    const SetupFindings& setup = f.setups[s];
    std::vector<std::string> row{
        sweep.key,
        csv_number(point.number),
        sweep.unit,
        setup.name,
        csv_time(setup.typical_s),
        csv_number(setup.mean_judged_s.value),
        csv_number(setup.mean_judged_s.standard_error),
        write_goal(setup, false),
        write_goal(setup, true),
        csv_number(setup.flat.value),
        csv_number(setup.flat.standard_error),
        csv_number(setup.no_finish.value),
        csv_number(setup.no_finish.standard_error),
        get_against(f).name,
    };
    std::vector<std::string> pair_cells(6);
    for (const PairFindings& pair : f.pairs) {
        if (pair.setup != static_cast<int>(s)) continue;
        pair_cells = {csv_number(pair.mean_s.value),
                      csv_number(pair.mean_s.standard_error),
                      pair.parts_known ? csv_number(pair.rolling_s.value) : "",
                      pair.parts_known ? csv_number(pair.flats_s.value) : "",
                      csv_number(pair.could_be_s.low),
                      csv_number(pair.could_be_s.high)};
    }
    row.insert(row.end(), pair_cells.begin(), pair_cells.end());
    row.push_back(find_advised(f) == static_cast<int>(s) ? "yes" : "no");
    row.push_back(name_certainty(f.verdict.certainty));
    return row;
}

}  // namespace

std::string write_sweep_page(const SweepFindings& sweep, const PageOptions& raw_options) {
    const PageOptions options = settle_options(raw_options);
    if (sweep.points.empty()) return "Stopped before the first value was ridden.\n";
    for (const SweepPoint& point : sweep.points) check_findings(point.findings);
    const StudyFacts& facts = sweep.points.front().findings.facts;
    Lines page =
        wrap(fmt::format(
                 "{}: {} from {} to {}, {} race days each", clean_line(facts.race_name),
                 clean_line(sweep.key), clean_line(sweep.points.front().value),
                 clean_line(sweep.points.back().value), format_count(facts.races)),
             options.width);
    for (std::string& line : page) line = paint(line, Ink::kStrong, options.colour);
    if (sweep.stopped_early) page.push_back("Stopped early: values are missing.");
    TextTable table = begin_table(sweep);
    for (const SweepPoint& point : sweep.points) table.rows.push_back(lay_point(point));
    append_section(page, lay_table(table, options));
    append_section(page, {});
    append_notes(page, sweep, options);
    if (!options.tables_directory.empty()) {
        page.push_back("Table: " + clean_line(options.tables_directory) + "/sweep.csv");
    }
    return join_lines(page);
}

void write_sweep_table(const SweepFindings& sweep, const std::string& directory) {
    CsvText csv({"key",
                 "value",
                 "unit",
                 "setup",
                 "typical_s",
                 "mean_judged_s",
                 "mean_judged_se_s",
                 "goal",
                 "goal_se",
                 "a_flat",
                 "a_flat_se",
                 "no_finish",
                 "no_finish_se",
                 "against",
                 "mean_difference_s",
                 "mean_difference_se_s",
                 "rolling_s",
                 "flats_s",
                 "could_be_low_s",
                 "could_be_high_s",
                 "advised",
                 "certainty"});
    for (const SweepPoint& point : sweep.points) {
        check_findings(point.findings);
        for (std::size_t s = 0; s < point.findings.setups.size(); ++s) {
            csv.add_row(lay_csv_row(sweep, point, s));
        }
    }
    write_files_together(directory, {{"sweep.csv", csv.text()}});
}

}  // namespace flattail
