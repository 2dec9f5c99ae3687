#include "publish/brief/content.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "publish/brief/advice.h"
#include "publish/brief/calendar.h"
#include "publish/brief/care.h"
#include "publish/brief/pump.h"
#include "publish/pages/computing_error.h"
#include "publish/pages/page_tables.h"
#include "publish/pages/text.h"
#include "publish/words.h"

namespace flattail::publish {

namespace {

constexpr int kLongestName = 48;  // columns
// Letters written from right to left begin here (UAX 9): Hebrew, Arabic and their kin.
constexpr unsigned char kFirstRightToLeft = 0xD6, kLastRightToLeft = 0xDF;
constexpr const char* kHardBlank = "\xC2\xA0";       // U+00A0
constexpr const char* kIsolate = "\xE2\x81\xA8";     // U+2068
constexpr const char* kEndIsolate = "\xE2\x81\xA9";  // U+2069

bool has_right_to_left(const std::string& text) {
    return std::any_of(text.begin(), text.end(), [](char c) {
        const auto byte = static_cast<unsigned char>(c);
        return byte >= kFirstRightToLeft && byte <= kLastRightToLeft;
    });
}

std::string isolate(const std::string& text) {
    return has_right_to_left(text) ? kIsolate + text + kEndIsolate : text;
}

const SetupFindings& at(const Findings& findings, int setup) {
    return findings.setups[static_cast<std::size_t>(setup)];
}

std::string describe_start(const scenario::Race& race) {
    const bool is_sum = race.swim_s.is_set() || race.transition_s.is_set();
    const double rounded_s = 60.0 * std::round(race.start_clock_s / 60.0);
    return is_sum ? "about " + format_clock(rounded_s) : format_clock(race.start_clock_s);
}

std::string describe_aims(const Findings& findings) {
    std::string text;
    for (std::size_t i = 0; i < std::min<std::size_t>(findings.goals_s.size(), 3); ++i) {
        text += (i == 0 ? "Goal " : ", ") + format_duration(findings.goals_s[i]);
    }
    if (!text.empty()) text += '.';
    if (findings.cutoff_s > 0.0) {
        if (!text.empty()) text += ' ';
        text += fmt::format("Cutoff {}.", format_duration(findings.cutoff_s));
    }
    return text;
}

void add_head(const Findings& findings, const scenario::Model& model,
              BriefContent& content) {
    const auto clean = [](const std::string& text) {
        return isolate(shorten_end(clean_line(text), 2 * kLongestName));
    };
    content.race = clean(model.race.name);
    content.rider = clean(model.rider.name);
    content.day = format_long_date(clean_line(model.race.date));
    content.start = describe_start(model.race);
    content.aims = describe_aims(findings);
    content.invented = findings.facts.invented;
    content.stopped_early = findings.facts.stopped_early;
}

// "5.8 in 100 (1 in 17)", whose last words stay together on a line.
std::string say_chance(const Figure& chance, double days) {
    std::string text = format_out_of_100(chance, days) + " days in 100";
    if (chance.value <= 0.0 || chance.value > 0.1) return text;
    text += " (";
    for (const char c : format_one_in(chance.value)) {
        if (c == ' ') {
            text += kHardBlank;
        } else {
            text += c;
        }
    }
    return text + ')';
}

std::string say_flat_cost(const SetupFindings& setup) {
    if (!std::isfinite(setup.flat_costs_s)) return "the race";
    return fmt::format("usually {:.0f} min, 1 in 10 over {:.0f} min",
                       setup.flat_costs_s / 60.0, setup.flat_costs_often_s / 60.0);
}

std::string say_no_finish(const SetupFindings& setup, double days) {
    std::string text = say_chance(setup.no_finish, days);
    const auto& causes = setup.no_finish_causes;
    const auto most = std::max_element(causes.begin(), causes.end(),
                                       [](const CauseRow& a, const CauseRow& b) {
                                           return a.chance.value < b.chance.value;
                                       });
    if (most != causes.end() && most->chance.value > 0.0) {
        text += ", mostly: " + clean_line(most->cause);
    }
    return text;
}

template <class Say>
void add_row(const Findings& findings, BriefContent& content, std::string label,
             Say say) {
    BriefRow row{std::move(label), {}};
    for (const int setup : content.shown) row.cells.push_back(say(at(findings, setup)));
    content.rows.push_back(std::move(row));
}

void add_rows(const Findings& findings, BriefContent& content) {
    const double days = count_days(findings);
    add_row(findings, content, "Typical day",
            [](const SetupFindings& s) { return format_duration(s.typical_s); });
    add_row(findings, content, "9 days in 10 are within", [](const SetupFindings& s) {
        return fmt::format("{} to {}", format_duration(s.nine_in_ten_s.low),
                           format_duration(s.nine_in_ten_s.high));
    });
    for (std::size_t goal = 0; goal < findings.goals_s.size(); ++goal) {
        add_row(findings, content,
                "Goal " + format_duration(findings.goals_s[goal]) + " met",
                [&](const SetupFindings& s) {
                    return format_out_of_100(s.goals[goal], days) + " days in 100";
                });
    }
    add_row(findings, content, "A flat",
            [&](const SetupFindings& s) { return say_chance(s.flat, days); });
    add_row(
        findings, content,
        fmt::format("Lose {} or more to flats", format_span(findings.lost_by_flats_s)),
        [&](const SetupFindings& s) { return say_chance(s.lose_long, days); });
    add_row(findings, content, "What a flat costs", say_flat_cost);
    add_row(findings, content, "No finish",
            [&](const SetupFindings& s) { return say_no_finish(s, days); });
}

void add_columns(const Findings& findings, const scenario::Model& model,
                 const std::vector<std::string>& names, BriefContent& content) {
    const int advised = find_advised(findings);
    for (const int shown : content.shown) {
        const auto index = static_cast<std::size_t>(shown);
        BriefColumn column{
            names[index], "", describe_wheels(model, model.setups[index]),
            describe_wheels(model, model.setups[index], Pressures::kTogether)};
        if (shown == advised) {
            column.role = "ride this";
        } else if (shown == findings.against) {
            column.role = advised < 0 ? "" : "fallback";
        } else {
            column.role = advised < 0 ? "" : "next best";
        }
        if (at(findings, shown).vetoed) column.role = "ruled out";
        content.columns.push_back(std::move(column));
    }
}

// Setups that are not in the table, a sentence each.
void add_also(const Findings& findings, const std::vector<std::string>& names,
              BriefContent& content) {
    const double days = count_days(findings);
    for (std::size_t i = 0; i < findings.setups.size(); ++i) {
        const SetupFindings& setup = findings.setups[i];
        const bool is_shown = std::count(content.shown.begin(), content.shown.end(),
                                         static_cast<int>(i)) > 0;
        if (is_shown || setup.vetoed) continue;
        std::string text = fmt::format("Also ridden, {}: typical day {}", names[i],
                                       format_duration(setup.typical_s));
        if (!findings.goals_s.empty()) {
            text += fmt::format(", goal met on {} days in 100",
                                format_out_of_100(setup.goals.front(), days));
        }
        text += fmt::format(", a flat on {}, no finish on {}.",
                            format_out_of_100(setup.flat, days),
                            format_out_of_100(setup.no_finish, days));
        content.also.push_back(std::move(text));
    }
}

// The last of 50 dots stands for the slowest day in 100.
constexpr double kLastDot = 0.01;

std::string describe_dots(const Findings& findings, const std::vector<std::string>& names,
                          const BriefContent& content) {
    std::string text =
        "Finish times of 50 race days per setup on one axis; one dot is 2 race days in "
        "100.";
    const double days = count_days(findings);
    for (const int shown : content.shown) {
        const SetupFindings& setup = at(findings, shown);
        text += fmt::format(" {}: half of the days are faster than {}",
                            names[static_cast<std::size_t>(shown)],
                            format_duration(setup.typical_s));
        if (!findings.goals_s.empty()) {
            text += fmt::format(", the goal is met on {} days in 100",
                                format_out_of_100(setup.goals.front(), days));
        }
        text += '.';
    }
    return text;
}

std::string describe_study(const Findings& findings) {
    const StudyFacts& facts = findings.facts;
    return fmt::format("{} race days, seed {}, check code {}, flattail {}. {}",
                       format_count(facts.races), facts.seed, facts.check_code,
                       facts.version, describe_error(findings, Reader::kRider));
}

}  // namespace

std::vector<std::string> name_setups(const Findings& findings) {
    std::vector<std::string> names;
    for (const SetupFindings& setup : findings.setups) {
        names.push_back(clean_line(setup.name));
    }
    names = shorten_names(names, kLongestName);
    std::transform(names.begin(), names.end(), names.begin(), isolate);
    return names;
}

std::string describe_wheels(const scenario::Model& model, const scenario::Setup& setup,
                            Pressures pressures) {
    const auto& front = setup.wheels[0];
    const auto& rear = setup.wheels[1];
    const auto both = [](const std::string& a, const std::string& b) {
        return clean_line(a == b ? a : a + " front, " + b + " rear");
    };
    const auto tyre = [&](const scenario::Wheel& wheel) {
        return model.tyres[static_cast<std::size_t>(wheel.tyre)].name;
    };
    const auto inner = [&](const scenario::Wheel& wheel) {
        return model.inners[static_cast<std::size_t>(wheel.inner)].name;
    };
    const std::string told =
        pressures == Pressures::kTogether
            ? say_pair(front.gauge_pa, rear.gauge_pa)
            : fmt::format("front {}, rear {}", format_pressure(front.gauge_pa),
                          format_pressure(rear.gauge_pa));
    return fmt::format("{}; {}; {}", both(tyre(front), tyre(rear)),
                       both(inner(front), inner(rear)), told);
}

BriefContent make_brief_content(const Findings& findings, const scenario::Model& model,
                                const PumpPlan& plan,
                                const std::vector<std::string>& turns) {
    BriefContent content;
    const std::vector<std::string> names = name_setups(findings);
    add_head(findings, model, content);
    add_advice(findings, model, names, content);
    add_columns(findings, model, names, content);
    add_rows(findings, content);
    add_also(findings, names, content);
    const int advised = find_advised(findings);
    if (advised >= 0) add_pump(plan, advised, content);
    if (advised >= 0) add_care(findings, model, advised, content);
    add_turns(turns, content);
    add_doubts(findings, model, names, content);
    content.has_crosses = std::any_of(
        content.shown.begin(), content.shown.end(),
        [&](int setup) { return at(findings, setup).no_finish.value > kLastDot; });
    content.picture_text = describe_dots(findings, names, content);
    content.course_text = fmt::format(
        "The course from start to finish, {} with {:.0f} m of climb: height, wind along "
        "the "
        "road, and flat risk per km; rough stretches are shaded.",
        format_distance(model.course->length_m), model.course->ascent_m);
    content.judged_note = fmt::format(
        "On average: over all race days; a day without a finish counts as {} ({}).",
        format_duration(findings.judged_no_finish_s), clean_line(findings.judged_rule));
    content.check = "Check " + findings.facts.check_code;
    content.footer = describe_study(findings);
    return content;
}

}  // namespace flattail::publish
