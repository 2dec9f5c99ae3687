#include "publish/pictures/pictures.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "publish/pages/page_tables.h"
#include "publish/pages/text.h"
#include "publish/pictures/course_picture.h"
#include "publish/pictures/label_width.h"
#include "publish/pictures/page_sizes.h"
#include "publish/pictures/picture_tables.h"
#include "publish/pictures/script.h"
#include "publish/pictures/setup_rows.h"
#include "publish/pictures/ticks.h"
#include "publish/words.h"

namespace flattail::publish {

namespace {

constexpr DotLayout kWideDots{kWide_px, kPad_px, 66.0, 11.0};
constexpr DotLayout kPhoneDots{kPhone_px, kPad_px, 62.0, 9.0};
constexpr int kWideTicks = 9;
constexpr int kPhoneTicks = 6;
// No goal: no line and no filled part.
constexpr int kNoGoal = -9;

const SetupFindings& at(const Findings& findings, int setup) {
    return findings.setups[static_cast<std::size_t>(setup)];
}

std::vector<int> list_all(const Findings& findings) {
    std::vector<int> all(findings.setups.size());
    std::iota(all.begin(), all.end(), 0);
    return all;
}

void set_goal(ScriptSettings& s, const Findings& findings, const Interval& axis_s) {
    if (findings.goals_s.empty()) {
        s.set("GOAL_SIDE", kNoGoal);
        s.set("GOAL_S", axis_s.low);
        s.set("GOAL_TEXT", "");
        return;
    }
    const double goal_s = findings.goals_s.front();
    s.set("GOAL_SIDE", goal_s < axis_s.low ? -1 : goal_s > axis_s.high ? 1 : 0);
    s.set("GOAL_S", goal_s);
    s.set("GOAL_TEXT", "Goal " + format_duration(goal_s));
}

std::string note_goal(const Findings& findings, const SetupFindings& setup) {
    const double days = count_days(findings);
    if (findings.goals_s.empty()) return "typical " + format_duration(setup.typical_s);
    return fmt::format("goal met on {} race days in 100",
                       format_out_of_100(setup.goals.front(), days));
}

std::string note_typical(const Findings& findings, const SetupFindings& setup) {
    return fmt::format("typical day {}; no finish {} in 100",
                       format_duration(setup.typical_s),
                       format_out_of_100(setup.no_finish, count_days(findings)));
}

std::string note_slow(const Findings&, const SetupFindings& setup) {
    if (std::isinf(setup.nine_in_ten_s.high)) return "no finish on over 1 day in 20";
    return fmt::format("1 day in 20 is slower than {}",
                       format_duration(setup.nine_in_ten_s.high));
}

template <class Note>
std::vector<std::string> write_notes(const Findings& findings,
                                     const std::vector<int>& shown, Note note) {
    std::vector<std::string> notes;
    for (const int setup : shown) notes.push_back(note(findings, at(findings, setup)));
    return notes;
}

// What the pictures over one axis of finish times share.
ScriptSettings begin_rows(const std::string& title, const Findings& findings,
                          const std::vector<int>& shown, const Interval& axis_s) {
    ScriptSettings s(title);
    set_sizes(s);
    set_rows(s, findings, shown);
    s.set("AXIS_LOW", axis_s.low);
    s.set("AXIS_HIGH", axis_s.high);
    s.set("WIDE_LATER_PX", kWideDots.later_px);
    s.set("PHONE_LATER_PX", kPhoneDots.later_px);
    set_time_ticks(s, "", axis_s.low, axis_s.high, kWideTicks, kPhoneTicks);
    set_goal(s, findings, axis_s);
    return s;
}

// The axis of a race that nobody finishes: an hour around nothing, so that the picture
// still says so.
Interval settle_range(const Findings& findings, const std::vector<int>& shown) {
    const Interval range_s = find_time_range(findings, shown);
    if (range_s.low < range_s.high) return range_s;
    const double middle_s = findings.goals_s.empty() ? 3600.0 : findings.goals_s.front();
    return {std::max(middle_s - 600.0, 0.0), middle_s + 600.0};
}

void add_curves(const Findings& findings, PictureSet& set) {
    const std::vector<int> shown = list_all(findings);
    const Interval axis_s = settle_range(findings, shown);
    const Curves curves =
        draw_curves(findings, shown, make_time_axis(axis_s.low, axis_s.high, kWideTicks));
    const std::string title = name_race(findings) + ": how finish times are spread";
    ScriptSettings s = begin_rows(title, findings, shown, axis_s);
    set_captions(s, name_setups(findings, shown),
                 write_notes(findings, shown, note_typical));
    std::vector<double> typical;
    for (const int setup : shown) {
        const double typical_s = at(findings, setup).typical_s;
        typical.push_back(std::isfinite(typical_s) ? typical_s : 0.0);
    }
    s.set("TYPICAL", typical);
    s.set("PEAK", curves.peak);
    s.set("DENSITY_MOST", std::max(curves.most, 1e-9));
    s.set("FILL_FROM", findings.goals_s.empty() ? 1e9 : findings.goals_s.front());
    set.tables.push_back({"curves.csv", curves.csv});
    set.pictures.push_back({"finish-times", title, write_script(s, "finish-times.gp")});
}

void add_slower(const Findings& findings, PictureSet& set) {
    const std::vector<int> shown = list_all(findings);
    Interval axis_s{1e300, -1e300};
    for (const int setup : shown) {
        for (const PercentileRow& row : at(findings, setup).percentiles) {
            if (row.percent < 50.0 || row.percent > 99.5 || std::isinf(row.time_s))
                continue;
            axis_s.low = std::min(axis_s.low, row.time_s);
            axis_s.high = std::max(axis_s.high, row.time_s);
        }
    }
    if (axis_s.low > axis_s.high) axis_s = settle_range(findings, shown);
    if (axis_s.high - axis_s.low < 60.0) axis_s.high = axis_s.low + 60.0;
    const std::string title = name_race(findings) + ": the chance of being slower than";
    ScriptSettings s(title);
    set_sizes(s);
    set_rows(s, findings, shown);
    set_captions(s, name_setups(findings, shown), write_notes(findings, shown, note_slow),
                 44.0);
    s.set("SLOW_LOW", axis_s.low);
    s.set("SLOW_HIGH", axis_s.high);
    set_time_ticks(s, "SLOW_", axis_s.low, axis_s.high, kWideTicks, kPhoneTicks - 1);
    set_goal(s, findings, axis_s);
    set.tables.push_back({"slower-than.csv", write_slower_csv(findings, shown)});
    set.pictures.push_back({"slower-than", title, write_script(s, "slower-than.gp")});
}

void add_intervals(const Findings& findings, PictureSet& set) {
    if (findings.pairs.empty()) return;
    std::vector<int> shown;
    std::vector<std::string> notes;
    Interval axis_s{-findings.matters_s, findings.matters_s};
    for (const PairFindings& pair : findings.pairs) {
        shown.push_back(pair.setup);
        notes.push_back(fmt::format("{} (could be {})",
                                    format_difference(pair.mean_s.value),
                                    format_difference_range(pair.could_be_s)));
        axis_s.low = std::min({axis_s.low, pair.could_be_s.low, pair.mean_s.value});
        axis_s.high = std::max({axis_s.high, pair.could_be_s.high, pair.mean_s.value});
    }
    const double margin_s = 0.06 * (axis_s.high - axis_s.low) + 1.0;
    axis_s = {axis_s.low - margin_s, axis_s.high + margin_s};
    const std::string against = clean_line(at(findings, findings.against).name);
    const std::string title = name_race(findings) + ": against " + against;
    ScriptSettings s(title);
    set_sizes(s);
    set_rows(s, findings, shown);
    set_captions(s, name_setups(findings, shown), notes);
    s.set("NET_LOW", axis_s.low);
    s.set("NET_HIGH", axis_s.high);
    s.set("MATTERS_S", findings.matters_s);
    set_net_ticks(s, "NET_WIDE_TICKS", axis_s, 11);
    set_net_ticks(s, "NET_PHONE_TICKS", axis_s, 5);
    const double room_px = kPhone_px - 2 * kPad_px;
    s.set("AXIS_TEXT", fit_text("min:s against " + against, kPhoneType_px - 1, room_px));
    s.set("MATTERS_TEXT", fmt::format("grey band: under {}, too small to act on",
                                      format_span(findings.matters_s)));
    set.tables.push_back({"intervals.csv", write_intervals_csv(findings)});
    set.pictures.push_back({"intervals", title, write_script(s, "intervals.gp")});
}

}  // namespace

void add_dots(const Findings& findings, const std::vector<int>& shown, PictureSet& set) {
    const Interval axis_s = settle_range(findings, shown);
    const TimeAxis axis = make_time_axis(axis_s.low, axis_s.high, kWideTicks);
    const std::string title =
        name_race(findings) + ": 50 dots per setup, one dot = 2 race days in 100";
    ScriptSettings s = begin_rows(title, findings, shown, axis_s);
    set_captions(s, name_setups(findings, shown),
                 write_notes(findings, shown, note_goal));
    int wide_stack = 3, phone_stack = 3;
    set.tables.push_back(
        {"dots.csv", write_dots_csv(findings, shown, axis, kWideDots, wide_stack)});
    set.tables.push_back({"dots-phone.csv", write_dots_csv(findings, shown, axis,
                                                           kPhoneDots, phone_stack)});
    s.set("WIDE_DOT_PX", kWideDots.dot_px);
    s.set("PHONE_DOT_PX", kPhoneDots.dot_px);
    s.set("WIDE_STACK", wide_stack);
    s.set("PHONE_STACK", phone_stack);
    set.pictures.push_back({"dots", title, write_script(s, "dots.gp")});
}

PictureSet make_pictures(const Findings& findings, const scenario::Model& model) {
    PictureSet set;
    add_curves(findings, set);
    add_dots(findings, list_all(findings), set);
    add_slower(findings, set);
    add_intervals(findings, set);
    add_course(findings, model, set);
    return set;
}

}  // namespace flattail::publish
