// What would turn the answer: the flat rate first, then whatever else could.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "publish/pages/text.h"
#include "publish/pictures/label_width.h"
#include "publish/pictures/page_sizes.h"
#include "publish/pictures/setup_rows.h"
#include "publish/pictures/ticks.h"
#include "publish/tables/csv_text.h"
#include "publish/why/names.h"
#include "publish/why_pictures/why_pictures.h"
#include "publish/words.h"

namespace flattail::publish {

namespace {

constexpr double kLeft_px = 54.0;  // room for the numbers of the difference
constexpr double kNow_px = 20.0;   // half of the word "now", and a gap

struct Panels {
    std::vector<const BreakEvenFindings*> shown;
    std::string never;  // what was asked and turns nothing
};

bool turns_nothing(const BreakEvenFindings& found) {
    return found.changes.empty() &&
           std::all_of(found.scan.begin(), found.scan.end(),
                       [](const ScanRow& row) { return is_told_apart(row.difference); });
}

Panels choose_panels(const WhyFindings& why, int subject) {
    Panels panels;
    for (const BreakEvenFindings& found : why.break_even) {
        if (found.setup != subject || found.scan.size() < 2) continue;
        if (found.question == BreakEvenQuestion::kFlatRate || !turns_nothing(found)) {
            panels.shown.push_back(&found);
            continue;
        }
        panels.never += fmt::format("{}{} ({} to {})", panels.never.empty() ? "" : ", ",
                                    name_question(found.question),
                                    format_at(found.question, found.range.low),
                                    format_at(found.question, found.range.high));
    }
    return panels;
}

// Both names where there is room for them; whose flats they are stands at the top too.
std::string write_flat_axis(const std::string& subject, const std::string& against,
                            double size_px, double room_px) {
    const std::string whole =
        fmt::format("flats of {} for each flat of {}", subject, against);
    if (estimate_width_px(whole, size_px) <= room_px) return whole;
    return "flats for each flat of " + fit_text(against, size_px, 0.45 * room_px);
}

std::string describe_axis(BreakEvenQuestion question, const std::string& subject,
                          const std::string& against, double size_px, double room_px) {
    switch (question) {
        case BreakEvenQuestion::kFlatRate:
            return write_flat_axis(subject, against, size_px, room_px);
        case BreakEvenQuestion::kRepairTime:
            return "minutes to change a tube";
        case BreakEvenQuestion::kPower:
            return "power of the rider, W";
        case BreakEvenQuestion::kPressure:
            return "psi in the tyres above the gauge";
        case BreakEvenQuestion::kRollingGain:
            break;
    }
    return fmt::format("W that {} saves (a pair, 45 km/h)",
                       fit_text(subject, size_px, 0.36 * room_px));
}

std::string note_panel(const BreakEvenFindings& found) {
    std::string note = "now " + format_at(found.question, found.now);
    if (found.changes.empty()) {
        return note + (turns_nothing(found) ? "; never turns" : "; too close to tell");
    }
    for (const BreakEvenRow& row : found.changes) {
        const bool is_first = &row == &found.changes.front();
        note +=
            (is_first ? "; turns at " : " and at ") + format_at(found.question, row.at);
    }
    if (found.changes.size() > 1) return note;
    const BreakEvenRow& row = found.changes.front();
    if (row.is_open_below && row.is_open_above) return note + " (or anywhere)";
    const std::string low = format_at(found.question, row.interval.low);
    const std::string high = format_at(found.question, row.interval.high);
    if (row.is_open_below) return note + fmt::format(" (or anywhere below {})", high);
    if (row.is_open_above) return note + fmt::format(" (or anywhere above {})", low);
    return low == high ? note : note + fmt::format(" ({} to {})", low, high);
}

// Differences as drawn: seconds, or race days in 100.
class Scale {
  public:
    explicit Scale(const WhyFindings& why) : factor_(why.in_chance ? 100.0 : 1.0) {}
    double value(const ScanRow& row) const { return factor_ * row.difference.value; }
    double reach(const ScanRow& row) const {
        return kNineteenInTwenty * factor_ * row.difference.standard_error;
    }
    double read(const BreakEvenFindings& found, double at) const {
        const auto& scan = found.scan;
        const auto after = std::find_if(
            scan.begin(), scan.end(), [at](const ScanRow& row) { return row.at >= at; });
        if (after == scan.begin()) return value(scan.front());
        if (after == scan.end()) return value(scan.back());
        const ScanRow& before = *(after - 1);
        const double share = (at - before.at) / (after->at - before.at);
        return value(before) + share * (value(*after) - value(before));
    }
    Interval find_axis(const BreakEvenFindings& found) const {
        Interval axis{0.0, 0.0};
        for (const ScanRow& row : found.scan) {
            axis.low = std::min(axis.low, value(row) - reach(row));
            axis.high = std::max(axis.high, value(row) + reach(row));
        }
        const double least = factor_ > 1.0 ? 0.2 : 10.0;
        const double margin = 0.08 * std::max(axis.high - axis.low, least);
        return {axis.low - margin, axis.high + margin};
    }

  private:
    double factor_;
};

std::string write_curves_csv(const Panels& panels, const Scale& scale, bool in_chance) {
    const std::string difference = in_chance ? "difference_days_in_100" : "difference_s";
    CsvText csv({"row", "at", difference, difference + "_low", difference + "_high",
                 "question", "unit"});
    for (std::size_t i = 0; i < panels.shown.size(); ++i) {
        const BreakEvenFindings& found = *panels.shown[i];
        for (const ScanRow& row : found.scan) {
            const double value = scale.value(row), reach = scale.reach(row);
            csv.add_row({std::to_string(i + 1), csv_number(row.at), csv_number(value),
                         csv_number(value - reach), csv_number(value + reach),
                         name_question(found.question), name_unit(found.question)});
        }
    }
    return csv.text();
}

// The places where the better one changes, of all panels behind each other.
void set_turns(ScriptSettings& s, const Panels& panels) {
    std::vector<double> row, at, low, high;
    for (std::size_t i = 0; i < panels.shown.size(); ++i) {
        const BreakEvenFindings& found = *panels.shown[i];
        for (const BreakEvenRow& change : found.changes) {
            row.push_back(static_cast<double>(i + 1));
            at.push_back(change.at);
            low.push_back(change.is_open_below ? found.range.low : change.interval.low);
            high.push_back(change.is_open_above ? found.range.high
                                                : change.interval.high);
        }
    }
    s.set("TURNS", static_cast<double>(row.size()));
    s.set("TURN_ROW", row);
    s.set("TURN_AT", at);
    s.set("TURN_LOW", low);
    s.set("TURN_HIGH", high);
}

void set_panel_ticks(ScriptSettings& s, std::size_t row, const Interval& x,
                     const Interval& y, bool in_chance) {
    for (const bool is_phone : {false, true}) {
        const std::string page = is_phone ? "PHONE" : "WIDE";
        set_round_ticks(s, fmt::format("{}_X_TICKS_{}", page, row), x.low, x.high,
                        is_phone ? 7 : 13);
        const std::string name = fmt::format("{}_Y_TICKS_{}", page, row);
        if (in_chance) {
            set_round_ticks(s, name, y.low, y.high, 6);
        } else {
            set_net_ticks(s, name, y, 6);
        }
    }
}

void set_panels(ScriptSettings& s, const Panels& panels, const Scale& scale,
                bool in_chance) {
    std::vector<double> x_low, x_high, y_low, y_high, now, now_y;
    for (std::size_t i = 0; i < panels.shown.size(); ++i) {
        const BreakEvenFindings& found = *panels.shown[i];
        const Interval x{std::min(found.scan.front().at, found.now),
                         std::max(found.scan.back().at, found.now)};
        const Interval y = scale.find_axis(found);
        x_low.push_back(x.low);
        x_high.push_back(x.high);
        y_low.push_back(y.low);
        y_high.push_back(y.high);
        now.push_back(found.now);
        now_y.push_back(scale.read(found, found.now));
        set_panel_ticks(s, i + 1, x, y, in_chance);
    }
    s.set("X_LOW", x_low);
    s.set("X_HIGH", x_high);
    s.set("Y_LOW", y_low);
    s.set("Y_HIGH", y_high);
    s.set("NOW", now);
    s.set("NOW_Y", now_y);
}

void set_words(ScriptSettings& s, const WhyFindings& why, const Panels& panels,
               const std::string& subject, const std::string& against) {
    std::vector<std::string> names, notes, wide_axis, phone_axis;
    const double small_px = kWideType_px - 1;
    for (const BreakEvenFindings* found : panels.shown) {
        std::string name = name_question(found->question);
        name.front() = static_cast<char>(name.front() - 'a' + 'A');
        names.push_back(std::move(name));
        notes.push_back(note_panel(*found));
        wide_axis.push_back(describe_axis(found->question, subject, against, small_px,
                                          kWide_px - kLeft_px - kPad_px));
        phone_axis.push_back(describe_axis(found->question, subject, against, small_px,
                                           kPhone_px - kLeft_px - kPad_px));
    }
    set_captions(s, names, notes);
    s.set("WIDE_AXIS", wide_axis);
    s.set("PHONE_AXIS", phone_axis);
    // A chance is better when it is larger, a time when it is smaller.
    const std::string& up = why.in_chance ? subject : against;
    const std::string& down = why.in_chance ? against : subject;
    set_sides(s, up, down, "ahead");
}

std::vector<std::string> write_foot(const WhyFindings& why, const Panels& panels) {
    std::vector<std::string> foot{
        fmt::format("by {}", why.in_chance ? why.race.verdict.rule : "average time"),
        "shaded: computing error, 19 in 20",
        "diamond: where the better one changes; bar: where that could be, 19 in 20"};
    if (!panels.never.empty()) foot.push_back("never within reason: " + panels.never);
    return foot;
}

}  // namespace

void add_break_even(const WhyFindings& why, PictureSet& set) {
    const int subject = find_subject(why);
    if (subject < 0) return;
    const Panels panels = choose_panels(why, subject);
    if (panels.shown.empty()) return;
    const Scale scale(why);
    const std::string title = write_why_title(why, "what would turn it");
    ScriptSettings s(title);
    set_sizes(s);
    s.set("ROWS", static_cast<double>(panels.shown.size()));
    const std::string y_text = why.in_chance ? "race days in 100" : "min:s";
    s.set("Y_TEXT", y_text);
    s.set("NOW_FROM_PX", kPad_px + estimate_width_px(y_text, kWideType_px - 1) + kNow_px);
    set_panels(s, panels, scale, why.in_chance);
    set_turns(s, panels);
    set_words(s, why, panels, clean_line(name_setup(why, subject)),
              clean_line(name_setup(why, why.race.against)));
    set_foot(s, write_foot(why, panels));
    set.tables.push_back(
        {"break-even-curves.csv", write_curves_csv(panels, scale, why.in_chance)});
    set.pictures.push_back({"break-even", title, write_script(s, "break-even.gp")});
}

}  // namespace flattail::publish
