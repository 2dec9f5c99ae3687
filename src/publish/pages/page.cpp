#include "publish/pages/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "flattail/why.h"
#include "publish/check_findings.h"
#include "publish/pages/computing_error.h"
#include "publish/pages/condition_table.h"
#include "publish/pages/finish_times.h"
#include "publish/pages/kit_line.h"
#include "publish/pages/page_tables.h"
#include "publish/pages/text.h"
#include "publish/words.h"
#include "study/rule.h"

namespace flattail::publish {

namespace {

constexpr int kFewestColumns = 80;
constexpr int kMostColumns = 160;
constexpr int kRemarkIndent = 9;
// The header lists this many goals; the rest is counted.
constexpr std::size_t kGoalsInHeader = 3;

using Lines = std::vector<std::string>;

// User text may hold anything; pages show only what a terminal prints in one line.
Findings clean_texts(Findings findings) {
    const auto clean = [](std::string& text) { text = clean_line(text); };
    clean(findings.facts.race_name);
    clean(findings.facts.rider_name);
    clean(findings.facts.date);
    clean(findings.judged_rule);
    clean(findings.verdict.rule);
    clean(findings.verdict.reason);
    for (std::string& cutoff : findings.cutoffs) clean(cutoff);
    for (std::string& caution : findings.cautions) clean(caution);
    for (KitRow& row : findings.kit) clean(row.item);
    for (SetupFindings& setup : findings.setups) {
        clean(setup.name);
        for (std::string& caution : setup.cautions) clean(caution);
        for (CauseRow& row : setup.no_finish_causes) clean(row.cause);
    }
    return findings;
}

// The name gives way; what follows it is never cut.
std::string fit_before(const std::string& name, const std::string& rest, int width) {
    return shorten_end(name, width - measure_width(rest)) + rest;
}

std::string describe_race(const StudyFacts& facts, int width) {
    const std::string name = facts.race_name.empty() ? "This race" : facts.race_name;
    std::string start =
        facts.start_varies
            ? "about " + format_clock(60.0 * std::round(facts.start_clock_s / 60.0))
            : format_clock(facts.start_clock_s);
    if (!facts.date.empty()) start = format_date(facts.date) + " " + start;
    return fit_before(
        name,
        fmt::format(": {}, {:.0f} m up, start {}", format_distance(facts.course_length_m),
                    facts.course_ascent_m, start),
        width);
}

std::string describe_aims(const Findings& findings) {
    std::string text;
    const std::size_t goals = findings.goals_s.size();
    for (std::size_t i = 0; i < std::min(goals, kGoalsInHeader); ++i) {
        text += (i == 0 ? (goals > 1 ? "  goals " : "  goal ") : ", ") +
                format_duration(findings.goals_s[i]);
    }
    if (goals > kGoalsInHeader) text += fmt::format(" +{}", goals - kGoalsInHeader);
    if (findings.cutoff_s > 0.0 && findings.cutoffs.empty()) {
        text += "  cutoff " + format_duration(findings.cutoff_s);
    }
    return text;
}

std::string describe_rider(const Findings& findings, int width) {
    const StudyFacts& facts = findings.facts;
    std::string rest;
    if (facts.rider_mass_kg > 0.0)
        rest += fmt::format("  {:.0f} kg", facts.rider_mass_kg);
    if (facts.rider_power_w > 0.0) rest += fmt::format("  {:.0f} W", facts.rider_power_w);
    rest += describe_aims(findings);
    const std::string name = facts.rider_name.empty() ? "Rider" : facts.rider_name;
    return fit_before(name, rest, width);
}

// "Cutoffs: km 45 by 11:10, finish by 14:30."
void append_cutoffs(Lines& lines, const Findings& findings, const PageOptions& options) {
    if (findings.cutoffs.empty()) return;
    std::string text = findings.cutoffs.size() == 1 ? "Cutoff: " : "Cutoffs: ";
    for (std::size_t i = 0; i < findings.cutoffs.size(); ++i) {
        if (i > 0) text += ", ";
        text += findings.cutoffs[i];
    }
    for (std::string& line : wrap(text + ".", options.width)) {
        lines.push_back(std::move(line));
    }
}

// Rider and study on one line where they fit, else on two.
Lines lay_header(const Findings& findings, const PageOptions& options) {
    const std::size_t setups = findings.setups.size();
    const std::string study =
        fmt::format("{} setup{}, {} race days", setups, setups == 1 ? "" : "s",
                    format_count(findings.facts.races));
    const std::string rider = describe_rider(findings, options.width);
    Lines lines{paint(describe_race(findings.facts, options.width), Ink::kStrong,
                      options.colour)};
    const int room = options.width - measure_width(rider) - measure_width(study);
    if (room >= 2) {
        lines.push_back(rider + std::string(static_cast<std::size_t>(room), ' ') + study);
    } else {
        lines.push_back(rider);
        lines.push_back(study);
    }
    append_cutoffs(lines, findings, options);
    if (findings.facts.invented) {
        lines.push_back("Invented example: rider, place and day are fictional.");
    }
    if (findings.facts.stopped_early) {
        lines.push_back(paint("Stopped early: fewer race days, a larger computing error.",
                              Ink::kWarning, options.colour));
    }
    return lines;
}

std::string describe_choice(const Findings& findings) {
    const Verdict& verdict = findings.verdict;
    const int advised = find_advised(findings);
    const auto name = [&findings](int setup) {
        return findings.setups[static_cast<std::size_t>(setup)].name;
    };
    std::string text = advised < 0 ? "none" : name(advised);
    if (advised >= 0) text += fmt::format(", {}", name_certainty(verdict.certainty));
    if (advised >= 0 && !verdict.rule.empty()) text += " by " + verdict.rule;
    if (advised != verdict.choice) {
        text += fmt::format(": keep it, {} is not far enough ahead to act on",
                            name(verdict.choice));
    } else if (!verdict.reason.empty()) {
        text += ": " + verdict.reason;
    }
    return text + ".";
}

// How often what we do not know would leave the choice as it is.
std::string describe_agreement(const Findings& findings) {
    const Verdict& verdict = findings.verdict;
    const double hundred = 100.0 * verdict.share_agreeing;
    const std::string share = hundred >= 99.5 ? "over 99"
                              : hundred < 0.5 ? "under 1"
                                              : fmt::format("{:.0f}", hundred);
    return fmt::format("{} is best in {} of 100 ways the unknown facts could turn out.",
                       findings.setups[static_cast<std::size_t>(verdict.choice)].name,
                       share);
}

std::string describe_goal(const Findings& findings) {
    const int advised = find_advised(findings);
    if (findings.goals_s.empty() || advised < 0 || advised == findings.against) return "";
    const SetupFindings& chosen = findings.setups[static_cast<std::size_t>(advised)];
    const SetupFindings& other =
        findings.setups[static_cast<std::size_t>(findings.against)];
    const double days = count_days(findings);
    return fmt::format("Goal {} met on {} race days in 100, against {} with {}.",
                       format_duration(findings.goals_s.front()),
                       format_out_of_100(chosen.goals.front(), days),
                       format_out_of_100(other.goals.front(), days), other.name);
}

// Where the rule is to finish, how often that is.
std::string describe_finishing(const Findings& findings) {
    const int advised = find_advised(findings);
    if (findings.verdict.rule != study::kFinishRule || advised < 0) return "";
    const auto chance = [&findings](int setup) {
        return findings.setups[static_cast<std::size_t>(setup)].no_finish.value;
    };
    std::string text =
        fmt::format("No finish on {} race days", format_one_in(chance(advised)));
    if (advised != findings.against) {
        text +=
            fmt::format(", against {} with {}", format_one_in(chance(findings.against)),
                        findings.setups[static_cast<std::size_t>(findings.against)].name);
    }
    return text + ".";
}

void append_choice(Lines& page, const Findings& findings, const PageOptions& options) {
    if (findings.setups.size() < 2 && findings.verdict.choice >= 0) return;
    append_remark(page, "CHOICE", describe_choice(findings), options, Ink::kStrong);
    if (findings.verdict.choice >= 0 && findings.verdict.reason.empty()) {
        append_remark(page, "", describe_agreement(findings), options);
    }
    const std::string goal = describe_goal(findings);
    if (!goal.empty()) append_remark(page, "", goal, options);
    const std::string finishing = describe_finishing(findings);
    if (!finishing.empty()) append_remark(page, "", finishing, options);
}

// What else the findings alone can say: the price, and other wishes that would choose
// another setup. What takes more rides is told by `why`.
void append_reasons(Lines& page, const Findings& findings, const PageOptions& options) {
    WhyFindings why;
    why.race = findings;
    const WhySentences told = tell_why(why);
    const auto append = [&](const char* word, const std::vector<std::string>& texts) {
        for (std::size_t i = 0; i < texts.size(); ++i) {
            append_remark(page, i == 0 ? word : "", texts[i], options);
        }
    };
    append("PRICE", told.price);
    append("FLIPS", told.flips);
}

void append_cautions(Lines& page, const Findings& findings, const PageOptions& options) {
    for (const std::string& caution : findings.cautions) {
        append_remark(page, "CAUTION", caution, options, Ink::kWarning);
    }
    for (const SetupFindings& setup : findings.setups) {
        for (const std::string& caution : setup.cautions) {
            append_remark(page, "CAUTION", setup.name + ": " + caution, options,
                          Ink::kWarning);
        }
    }
}

Lines lay_footer(const Findings& findings, const PageOptions& options) {
    Lines lines = wrap(describe_error(findings), options.width);
    const StudyFacts& facts = findings.facts;
    lines.push_back(fmt::format("Check code {}, seed {}, flattail {}.", facts.check_code,
                                facts.seed, facts.version));
    for (std::string& line : lines) line = paint(line, Ink::kFaint, options.colour);
    // A path is never broken: it is there to be copied.
    if (!options.tables_directory.empty()) {
        lines.push_back("Tables: " + clean_line(options.tables_directory));
    }
    return lines;
}

}  // namespace

std::string join_lines(const Lines& lines) {
    std::string text;
    for (const std::string& line : lines) text += line + '\n';
    return text;
}

PageOptions settle_options(PageOptions options) {
    options.width = std::clamp(options.width, kFewestColumns, kMostColumns);
    return options;
}

void append_section(Lines& page, Lines section) {
    if (section.empty()) return;
    if (!page.empty()) page.emplace_back();
    page.insert(page.end(), section.begin(), section.end());
}

void append_remark(Lines& page, const std::string& word, const std::string& text,
                   const PageOptions& options, Ink ink) {
    const std::string head = pad_end(word, kRemarkIndent);
    for (const std::string& line : wrap(text, options.width, head)) {
        page.push_back(paint(line, ink, options.colour));
    }
}

}  // namespace flattail::publish

namespace flattail {

std::string write_page(const Findings& raw, const PageOptions& raw_options) {
    using namespace publish;
    check_findings(raw);
    const Findings findings = clean_texts(raw);
    const PageOptions options = settle_options(raw_options);
    std::vector<std::string> page = lay_header(findings, options);
    append_section(page, lay_setups(findings, options));
    append_section(page, lay_goals(findings, options));
    append_section(page, lay_flat_costs(findings, options));
    append_section(page, lay_pairs(findings, options));
    append_section(page, lay_conditions(findings, options));
    append_section(page, lay_finish_times(findings, options));
    std::vector<std::string> remarks;
    append_choice(remarks, findings, options);
    append_reasons(remarks, findings, options);
    const std::string kit = describe_kit(findings, find_advised(findings));
    if (!kit.empty()) append_remark(remarks, "KIT", kit, options);
    append_cautions(remarks, findings, options);
    append_section(page, std::move(remarks));
    append_section(page, lay_footer(findings, options));
    return join_lines(page);
}

}  // namespace flattail
