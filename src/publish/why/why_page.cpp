// The page of `flattail why`.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "flattail/why.h"
#include "publish/check_findings.h"
#include "publish/pages/page.h"
#include "publish/pages/text.h"
#include "publish/pages/text_table.h"
#include "publish/why/names.h"
#include "publish/why/variants_section.h"
#include "publish/words.h"

namespace flattail {

namespace {

using namespace publish;
using Lines = std::vector<std::string>;

constexpr std::size_t kMostFacts = 6;
constexpr std::size_t kMostLessons = 5;

Lines lay_header(const WhyFindings& why, const PageOptions& options) {
    const StudyFacts& facts = why.race.facts;
    Lines lines{paint(shorten_end(clean_line(facts.race_name) + ": why", options.width),
                      Ink::kStrong, options.colour)};
    lines.push_back(fmt::format("{} setups, {} race days{}", why.race.setups.size(),
                                format_count(facts.races),
                                facts.invented ? ", invented example" : ""));
    if (why.stopped_early) {
        lines.push_back(paint("Stopped early: some questions were not asked.",
                              Ink::kWarning, options.colour));
    }
    return lines;
}

std::string describe_change(const BreakEvenFindings& found, const BreakEvenRow& row) {
    const std::string low =
        row.is_open_below ? "?" : format_at(found.question, row.interval.low);
    const std::string high =
        row.is_open_above ? "?" : format_at(found.question, row.interval.high);
    return low == high ? "" : low + " to " + high;
}

bool is_open(const BreakEvenFindings& found) {
    return std::any_of(found.scan.begin(), found.scan.end(),
                       [](const ScanRow& row) { return !is_told_apart(row.difference); });
}

void append_break_even(const BreakEvenFindings& found, TextTable& table) {
    TextRow row;
    row.name = "  " + name_question(found.question);
    const std::string now = format_at(found.question, found.now);
    const std::string range =
        fmt::format("{} to {}", format_at(found.question, found.range.low),
                    format_at(found.question, found.range.high));
    if (!found.not_asked.empty()) {
        row.cells = {"", "not asked", "", ""};
        table.rows.push_back(row);
        return;
    }
    if (found.changes.empty()) {
        row.cells = {now, is_open(found) ? "open" : "never", "", range};
        table.rows.push_back(row);
        return;
    }
    bool is_first = true;
    for (const BreakEvenRow& change : found.changes) {
        row.cells = {is_first ? now : "", format_at(found.question, change.at),
                     describe_change(found, change), is_first ? range : ""};
        if (!is_first) row.name = "";
        is_first = false;
        table.rows.push_back(row);
    }
}

std::vector<std::string> wrap_note(const std::string& text, const PageOptions& options) {
    Lines lines;
    for (const std::string& line : wrap(text, options.width, "  ")) {
        lines.push_back(paint(line, Ink::kFaint, options.colour));
    }
    return lines;
}

void append_note(Lines& lines, const std::string& text, const PageOptions& options) {
    for (std::string& line : wrap_note(text, options)) lines.push_back(std::move(line));
}

Lines lay_break_even(const WhyFindings& why, int subject, const PageOptions& options) {
    TextTable table;
    table.corner = "WHAT WOULD TURN IT";
    table.columns = {{{"NOW"}}, {{"TURNS AT"}}, {{"19 IN 20"}}, {{"LOOKED AT"}}};
    for (const BreakEvenFindings& found : why.break_even) {
        if (found.setup == subject) append_break_even(found, table);
    }
    if (table.rows.empty()) return {};
    Lines lines = lay_table(table, options);
    append_note(
        lines,
        fmt::format("{} against {}, by {}. Flat rate: flats of the one for each "
                    "of the other. Rolling gain: a pair at 45 km/h and 85 kg. "
                    "Never: the same one ahead all along; open: too close to "
                    "tell somewhere.",
                    clean_line(name_setup(why, subject)),
                    clean_line(name_setup(why, why.race.against)),
                    why.in_chance ? clean_line(why.race.verdict.rule) : "average time"),
        options);
    return lines;
}

Lines lay_moves(const WhyFindings& why, int subject, const PageOptions& options) {
    const MovesFindings* moves = find_moves(why, subject);
    if (moves == nullptr || moves->facts.empty()) return {};
    TextTable table;
    table.corner = "WHAT MOVES THE RESULT";
    table.columns = {
        {{"FROM"}}, {{"TO"}}, {{"NET AT", "THE FIRST"}}, {{"NET AT", "THE SECOND"}}};
    for (std::size_t i = 0; i < std::min(moves->facts.size(), kMostFacts); ++i) {
        const FactFindings& fact = moves->facts[i];
        const std::string unit = fact.unit.empty() ? "" : " " + fact.unit;
        table.rows.push_back({"  ",
                              clean_line(fact.label),
                              {format_briefly(fact.low), format_briefly(fact.high) + unit,
                               format_difference(fact.at_low_s.value),
                               format_difference(fact.at_high_s.value)}});
    }
    Lines lines = lay_table(table, options);
    std::string groups;
    for (const GroupFindings& group : moves->groups) {
        if (group.total.value < 0.005) continue;
        groups += fmt::format("{}{} {:.0f}", groups.empty() ? "" : ", ", group.name,
                              100.0 * group.total.value);
    }
    append_note(
        lines,
        fmt::format("Average difference {} to {}, with that fact at 1 in 10 and 9 "
                    "in 10 of what it could be. What we don't know moves it by "
                    "{} (one sd), a day's luck by {}. Of the first, in 100: {}; "
                    "{:.0f} belongs to no single fact.",
                    clean_line(name_setup(why, subject)),
                    clean_line(name_setup(why, why.race.against)),
                    format_span(std::round(moves->not_known_s.value)),
                    format_span(std::round(moves->luck_s.value)), groups,
                    100.0 * moves->interaction),
        options);
    return lines;
}

std::string format_worth(const Figure& worth, bool in_chance) {
    if (in_chance) {
        return worth.value < 0.5e-4 ? "under 0.01 in 100"
                                    : fmt::format("{:.2f} in 100", 100.0 * worth.value);
    }
    return worth.value < 0.05 ? "under 0.1 s" : fmt::format("{:.1f} s", worth.value);
}

std::string describe_lesson(const InformationRow& row) {
    switch (row.learning) {
        case Learning::kEverything:
            return row.label;
        case Learning::kOneFact:
            return row.label;
        case Learning::kRiding:
            return row.label + ", 600 km more";
        case Learning::kTest:
            break;
    }
    return row.label + ", one more test";
}

Lines lay_information(const WhyFindings& why, const PageOptions& options) {
    const InformationFindings& found = why.information;
    if (!found.why_not.empty()) {
        Lines lines{paint("WHAT KNOWING IS WORTH", Ink::kStrong, options.colour)};
        append_note(lines, "Not told: " + found.why_not + ".", options);
        return lines;
    }
    TextTable table;
    table.corner = "WHAT KNOWING IS WORTH";
    table.columns = {{{"LEARNT"}}, {{"WORTH"}}};
    for (std::size_t i = 0; i < std::min(found.rows.size(), kMostLessons); ++i) {
        const InformationRow& row = found.rows[i];
        table.rows.push_back({"  ",
                              clean_line(describe_lesson(row)),
                              {fmt::format("{:.0f} %", 100.0 * row.share),
                               format_worth(row.worth, found.in_chance)}});
    }
    Lines lines = lay_table(table, options);
    append_note(lines,
                "On average, from choosing after it is known instead of now. More in "
                "information.csv.",
                options);
    return lines;
}

bool is_priced(const WhyFindings& why) {
    return std::any_of(why.trade_off.begin(), why.trade_off.end(),
                       [](const TradeOffRow& row) { return row.price.has_value(); });
}

Lines lay_trade_off(const WhyFindings& why, const PageOptions& options) {
    if (why.trade_off.size() < 2) return {};
    const bool priced = is_priced(why);
    TextTable table;
    table.corner = "TYPICAL AND BAD DAYS";
    table.columns = {{{"TYPICAL", "DAY"}}, {{"WORST", "1 IN 20"}}};
    if (priced) {
        table.columns.push_back({{"COSTS", "MORE"}});
        table.columns.push_back({{"FOR EACH", "SECOND"}});
    }
    table.columns.push_back({{"BEATEN ON BOTH BY"}, Align::kStart});
    for (const TradeOffRow& row : why.trade_off) {
        TextRow line{"  ", clean_line(name_setup(why, row.setup)), {}};
        line.cells = {format_duration(row.typical_s.value),
                      format_duration(row.bad_days_s.value)};
        if (priced) {
            line.cells.push_back(row.price ? fmt::format("{:g}", *row.price) : "");
            line.cells.push_back(row.price_per_s ? fmt::format("{:.2g}", *row.price_per_s)
                                                 : "");
        }
        line.cells.push_back(
            row.beaten_by < 0
                ? ""
                : shorten_end(clean_line(name_setup(why, row.beaten_by)), 20));
        table.rows.push_back(std::move(line));
    }
    return lay_table(table, options);
}

void append_remarks(Lines& page, const char* word, const std::vector<std::string>& texts,
                    const PageOptions& options) {
    bool is_first = true;
    for (const std::string& text : texts) {
        append_remark(page, is_first ? word : "", clean_line(text), options);
        is_first = false;
    }
}

Lines lay_sentences(const WhyFindings& why, const PageOptions& options) {
    const WhySentences told = tell_why(why);
    Lines lines;
    append_remarks(lines, "FLIPS", told.flips, options);
    append_remarks(lines, "PRICE", told.price, options);
    append_remarks(lines, "CHANGES", told.changes, options);
    return lines;
}

}  // namespace

std::string write_why_page(const WhyFindings& why, const PageOptions& raw_options) {
    check_findings(why.race);
    const PageOptions options = settle_options(raw_options);
    Lines page = lay_header(why, options);
    const int subject = find_subject(why);
    if (subject >= 0) {
        append_section(page, lay_break_even(why, subject, options));
        append_section(page, lay_moves(why, subject, options));
    }
    append_section(page, lay_information(why, options));
    append_section(page, lay_trade_off(why, options));
    append_section(page, lay_variants(why, options));
    append_section(page, lay_sentences(why, options));
    const StudyFacts& facts = why.race.facts;
    append_section(page, {paint(fmt::format("Check code {}, seed {}, flattail {}.",
                                            facts.check_code, facts.seed, facts.version),
                                Ink::kFaint, options.colour)});
    if (!options.tables_directory.empty()) {
        page.push_back("Tables: " + clean_line(options.tables_directory));
    }
    return join_lines(page);
}

}  // namespace flattail
