// Ordinary days against bad ones, a mark for each setup.
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

constexpr double kLeft_px = 62.0;       // numbers of the axis
constexpr double kKeyIndent_px = 24.0;  // marks of the key
constexpr double kWideBody_px = 300.0;  // height of the plot
constexpr double kPhoneBody_px = 250.0;
constexpr double kApart_px = 19.0;    // marks closer than this hide each other
constexpr double kShortest_s = 20.0;  // an axis shorter than this magnifies error

struct Place {
    double x = 0.0, y = 0.0;
};

bool is_drawn(const TradeOffRow& row) {
    return std::isfinite(row.typical_s.value) && std::isfinite(row.bad_days_s.value);
}

Interval widen(Interval axis_s) {
    if (axis_s.low > axis_s.high) return {0.0, 3600.0};
    const double margin_s =
        std::max(0.12 * (axis_s.high - axis_s.low), 0.5 * kShortest_s);
    return {axis_s.low - margin_s, axis_s.high + margin_s};
}

struct Axes {
    Interval x{1e300, -1e300}, y{1e300, -1e300};
};

Axes find_axes(const std::vector<TradeOffRow>& rows) {
    Axes axes;
    for (const TradeOffRow& row : rows) {
        if (!is_drawn(row)) continue;
        axes.x.low = std::min(axes.x.low, row.typical_s.value);
        axes.x.high = std::max(axes.x.high, row.typical_s.value);
        axes.y.low = std::min(axes.y.low, row.bad_days_s.value);
        axes.y.high = std::max(axes.y.high, row.bad_days_s.value);
    }
    return {widen(axes.x), widen(axes.y)};
}

// The first free place: its own, else round it in growing rings of eight.
Place find_free(const Place& own, const std::vector<Place>& taken) {
    const auto is_free = [&](const Place& place) {
        return std::all_of(taken.begin(), taken.end(), [&](const Place& other) {
            return std::hypot(place.x - other.x, place.y - other.y) >= kApart_px;
        });
    };
    if (is_free(own)) return own;
    constexpr double kPi = 3.14159265358979323846;
    for (int ring = 1; ring < 12; ++ring) {
        for (int i = 0; i < 8; ++i) {
            const double turn = kPi * i / 4.0, away_px = 0.75 * kApart_px * ring;
            const Place place{own.x + away_px * std::cos(turn),
                              own.y + away_px * std::sin(turn)};
            if (is_free(place)) return place;
        }
    }
    return own;
}

struct Marks {
    std::string csv;  // the two times, and where the mark stands
    bool any_moved = false;
};

Marks place_marks(const WhyFindings& why, const Axes& axes, double width_px,
                  double body_px) {
    Marks marks;
    CsvText csv({"setup_number", "typical_s", "worst_1_in_20_s", "drawn_x_s", "drawn_y_s",
                 "setup"});
    const double x_s_per_px =
        (axes.x.high - axes.x.low) / (width_px - kLeft_px - kPad_px);
    const double y_s_per_px = (axes.y.high - axes.y.low) / body_px;
    std::vector<Place> taken;
    for (const TradeOffRow& row : why.trade_off) {
        if (!is_drawn(row)) continue;
        const Place own{(row.typical_s.value - axes.x.low) / x_s_per_px,
                        (row.bad_days_s.value - axes.y.low) / y_s_per_px};
        const Place place = find_free(own, taken);
        taken.push_back(place);
        const bool is_own = place.x == own.x && place.y == own.y;
        marks.any_moved = marks.any_moved || !is_own;
        csv.add_row(
            {std::to_string(row.setup + 1), csv_number(row.typical_s.value),
             csv_number(row.bad_days_s.value),
             csv_number(is_own ? row.typical_s.value : axes.x.low + x_s_per_px * place.x),
             csv_number(is_own ? row.bad_days_s.value
                               : axes.y.low + y_s_per_px * place.y),
             name_setup(why, row.setup)});
    }
    marks.csv = csv.text();
    return marks;
}

std::string note_row(const WhyFindings& why, const TradeOffRow& row) {
    if (!is_drawn(row)) return "no finish on half of the days: no mark";
    if (row.beaten_by >= 0) {
        return "beaten on both counts by " + clean_line(name_setup(why, row.beaten_by));
    }
    return fmt::format("typical day {}, bad days {}",
                       format_duration(row.typical_s.value),
                       format_duration(row.bad_days_s.value));
}

}  // namespace

void add_trade_off(const WhyFindings& why, PictureSet& set) {
    if (why.trade_off.size() < 2) return;
    const Axes axes = find_axes(why.trade_off);
    const std::string title =
        name_race(why.race) + ": trade-off of the typical day and bad days";
    ScriptSettings s(title);
    set_sizes(s);
    std::vector<int> shown;
    std::vector<std::string> notes;
    std::vector<double> beaten;
    for (const TradeOffRow& row : why.trade_off) {
        shown.push_back(row.setup);
        notes.push_back(note_row(why, row));
        beaten.push_back(row.beaten_by >= 0 && is_drawn(row) ? 1 : 0);
    }
    set_rows(s, why.race, shown);
    set_captions(s, name_setups(why.race, shown), notes, kKeyIndent_px);
    s.set("BEATEN", beaten);
    s.set("X_LOW", axes.x.low);
    s.set("X_HIGH", axes.x.high);
    s.set("Y_LOW", axes.y.low);
    s.set("Y_HIGH", axes.y.high);
    // Ticks at the very ends would reach beyond the page.
    const double end_s = 0.04 * (axes.x.high - axes.x.low);
    set_time_ticks(s, "X_", axes.x.low + end_s, axes.x.high - end_s, 8, 4);
    set_time_ticks(s, "Y_", axes.y.low, axes.y.high, 7, 6);
    const Marks wide = place_marks(why, axes, kWide_px, kWideBody_px);
    const Marks phone = place_marks(why, axes, kPhone_px, kPhoneBody_px);
    std::vector<std::string> foot{
        "better: further left and lower",
        "crossed out: another is faster on the typical day and on bad days, beyond "
        "computing error"};
    if (wide.any_moved || phone.any_moved) {
        foot.emplace_back("a mark at the end of a thin line belongs to its other end");
    }
    set_foot(s, foot);
    set.tables.push_back({"trade-off-marks.csv", wide.csv});
    set.tables.push_back({"trade-off-marks-phone.csv", phone.csv});
    set.pictures.push_back({"trade-off", title, write_script(s, "trade-off.gp")});
}

}  // namespace flattail::publish
