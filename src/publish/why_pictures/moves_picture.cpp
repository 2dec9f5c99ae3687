// What moves the result, as bars.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "publish/pages/text.h"
#include "publish/pictures/page_sizes.h"
#include "publish/pictures/setup_rows.h"
#include "publish/pictures/ticks.h"
#include "publish/tables/csv_text.h"
#include "publish/why/names.h"
#include "publish/why_pictures/why_pictures.h"
#include "publish/words.h"

namespace flattail::publish {

namespace {

constexpr std::size_t kMostBars = 8;

double find_swing_s(const FactFindings& fact) {
    return std::abs(fact.at_high_s.value - fact.at_low_s.value);
}

bool is_sure(const FactFindings& fact) {
    return is_told_apart_by_groups(
        {find_swing_s(fact),
         std::hypot(fact.at_low_s.standard_error, fact.at_high_s.standard_error)});
}

struct Bars {
    std::vector<FactFindings> shown;
    std::size_t more = 0;      // facts without a bar
    double more_most_s = 0.0;  // the longest of theirs
};

// Longest first; those that computing error could have made only when there is no other.
Bars choose_bars(const MovesFindings& moves) {
    std::vector<FactFindings> facts = moves.facts;
    std::stable_sort(facts.begin(), facts.end(),
                     [](const FactFindings& a, const FactFindings& b) {
                         return find_swing_s(a) > find_swing_s(b);
                     });
    Bars bars;
    for (const FactFindings& fact : facts) {
        const bool has_room = bars.shown.size() < kMostBars;
        if (bars.shown.empty() || (has_room && is_sure(fact))) {
            bars.shown.push_back(fact);
        } else {
            ++bars.more;
            bars.more_most_s = std::max(bars.more_most_s, find_swing_s(fact));
        }
    }
    return bars;
}

std::string note_fact(const FactFindings& fact) {
    const std::string unit = fact.unit.empty() ? "" : " " + fact.unit;
    return fmt::format("{} at {}, {} at {}{}", format_difference(fact.at_low_s.value),
                       format_briefly(fact.low), format_difference(fact.at_high_s.value),
                       format_briefly(fact.high), clean_line(unit));
}

Interval find_axis(const Bars& bars, double expected_s, double matters_s) {
    Interval axis_s{std::min(-matters_s, expected_s), std::max(matters_s, expected_s)};
    for (const FactFindings& fact : bars.shown) {
        axis_s.low = std::min({axis_s.low, fact.at_low_s.value, fact.at_high_s.value});
        axis_s.high = std::max({axis_s.high, fact.at_low_s.value, fact.at_high_s.value});
    }
    const double margin_s = 0.06 * (axis_s.high - axis_s.low) + 1.0;
    return {axis_s.low - margin_s, axis_s.high + margin_s};
}

std::string write_moves_csv(const Bars& bars) {
    CsvText csv({"row", "at_low_s", "at_high_s", "low", "high", "unit", "name", "label"});
    int row = 0;
    for (const FactFindings& f : bars.shown) {
        csv.add_row({std::to_string(++row), csv_number(f.at_low_s.value),
                     csv_number(f.at_high_s.value), csv_number(f.low), csv_number(f.high),
                     f.unit, f.name, f.label});
    }
    return csv.text();
}

std::vector<std::string> write_foot(const WhyFindings& why, const Bars& bars,
                                    const std::string& subject, double expected_s) {
    std::vector<std::string> foot{
        fmt::format("min:s, {} against {}, average over all race days", subject,
                    clean_line(name_setup(why, why.race.against))),
        "open end: the fact at 1 in 10 of what it could be; full end: at 9 in 10",
        fmt::format("dashed: as expected, {}; grey band: under {}, too small to act on",
                    format_difference(expected_s), format_span(why.race.matters_s))};
    if (bars.more > 0) {
        const std::string most = format_time_error(bars.more_most_s);
        foot.push_back(fmt::format("{} more facts move it by {}{} each", bars.more,
                                   most.find("under") == 0 ? "" : "up to ", most));
    }
    return foot;
}

}  // namespace

void add_moves(const WhyFindings& why, PictureSet& set) {
    const int subject = find_subject(why);
    const MovesFindings* moves = find_moves(why, subject);
    if (moves == nullptr || moves->facts.empty()) return;
    const Bars bars = choose_bars(*moves);
    const PairFindings* pair = find_pair(why, subject);
    const double expected_s = pair == nullptr ? 0.0 : pair->mean_s.value;
    const Interval axis_s = find_axis(bars, expected_s, why.race.matters_s);
    const std::string title = write_why_title(why, "what moves the result");
    ScriptSettings s(title);
    set_sizes(s);
    std::vector<std::string> names, notes;
    for (const FactFindings& fact : bars.shown) {
        names.push_back(clean_line(fact.label));
        notes.push_back(note_fact(fact));
    }
    s.set("ROWS", static_cast<double>(bars.shown.size()));
    set_captions(s, names, notes);
    s.set("NET_LOW", axis_s.low);
    s.set("NET_HIGH", axis_s.high);
    s.set("MATTERS_S", why.race.matters_s);
    s.set("EXPECTED_S", expected_s);
    set_net_ticks(s, "NET_WIDE_TICKS", axis_s, 11);
    set_net_ticks(s, "NET_PHONE_TICKS", axis_s, 5);
    const std::string name = clean_line(name_setup(why, subject));
    set_sides(s, name, clean_line(name_setup(why, why.race.against)), "faster");
    set_foot(s, write_foot(why, bars, name, expected_s));
    set.tables.push_back({"moves.csv", write_moves_csv(bars)});
    set.pictures.push_back({"moves", title, write_script(s, "moves.gp")});
}

}  // namespace flattail::publish
