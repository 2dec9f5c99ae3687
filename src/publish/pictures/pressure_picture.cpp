// Tyre pressure from the pump to the finish, a panel for each setup.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "flattail/pictures.h"
#include "publish/pages/text.h"
#include "publish/pictures/label_width.h"
#include "publish/pictures/page_sizes.h"
#include "publish/pictures/pictures.h"
#include "publish/pictures/setup_rows.h"
#include "publish/pictures/ticks.h"
#include "publish/tables/csv_text.h"
#include "publish/words.h"

namespace flattail::publish {

namespace {

constexpr double kPsi_pa = 6894.757293168;  // NIST SP 811 (2008), appendix B.8
constexpr double kBar_pa = 1e5;
constexpr double kDay_s = 86400.0;
constexpr double kBody_px = 128.0;  // height of a panel
constexpr double kLabel_px = 20.0;  // a line of text beside a limit
constexpr double kApart_px = 16.0;  // of the names of two lines
constexpr double kLeft_px = 56.0, kRight_px = 84.0;
// A narrower axis would show the leak of a good tube as a fall.
constexpr double kNarrowest_psi = 12.0;

double psi(double pa) { return pa / kPsi_pa; }

std::string write_clock(double clock_s) {
    const double minutes_s = 60.0 * std::round(clock_s / 60.0);
    const bool is_before = minutes_s < 0.0;
    return format_clock(minutes_s - kDay_s * std::floor(minutes_s / kDay_s)) +
           (is_before ? " the day before" : "");
}

// The bounds drawn for a setup: the wheels' own where they differ.
struct Limits {
    double most_psi = 0.0, least_psi = 0.0;  // 0: not stated
    std::string most, least;
};

std::string write_bound(const char* words, const PressureBound& front,
                        const PressureBound& rear) {
    const std::string whose =
        front.whose == rear.whose ? front.whose : front.whose + ", " + rear.whose;
    if (front.gauge_pa == rear.gauge_pa) {
        return fmt::format("{} {}, {}", words, format_pressure(front.gauge_pa), whose);
    }
    return fmt::format("{} {:.0f}/{:.0f} psi front/rear, {}", words, psi(front.gauge_pa),
                       psi(rear.gauge_pa), whose);
}

Limits find_limits(const SetupPump& setup) {
    const WheelPump& front = setup.wheels[0];
    const WheelPump& rear = setup.wheels[1];
    Limits limits;
    if (front.most && rear.most) {
        limits.most_psi = psi(std::min(front.most->gauge_pa, rear.most->gauge_pa));
        limits.most = write_bound("at most", *front.most, *rear.most);
    }
    if (front.least && rear.least) {
        limits.least_psi = psi(std::max(front.least->gauge_pa, rear.least->gauge_pa));
        limits.least = write_bound("at least", *front.least, *rear.least);
    }
    return limits;
}

void take_in(double value_psi, Interval& range) {
    if (!(value_psi > 0.0)) return;
    range.low = std::min(range.low, value_psi);
    range.high = std::max(range.high, value_psi);
}

Interval find_axis(const PumpPlan& plan) {
    Interval range{1e300, 0.0};
    for (const SetupPump& setup : plan.setups) {
        const Limits limits = find_limits(setup);
        take_in(limits.most_psi, range);
        take_in(limits.least_psi, range);
        for (const WheelPump& wheel : setup.wheels) {
            for (const double pa : wheel.on_the_way_pa) take_in(psi(pa), range);
            for (const auto& likely : {wheel.at_start, wheel.at_finish}) {
                take_in(psi(likely.low_pa), range);
                take_in(psi(likely.high_pa), range);
            }
        }
    }
    const double missing = std::max(0.0, kNarrowest_psi - (range.high - range.low));
    range = {range.low - 0.5 * missing, range.high + 0.5 * missing};
    // Room for a line of text above and below.
    const double psi_per_px = (range.high - range.low) / (kBody_px - 2 * kLabel_px);
    return {range.low - kLabel_px * psi_per_px, range.high + kLabel_px * psi_per_px};
}

// setup_number, wheel_number, minutes, clock and pressure; the range of 9 days in 10 at
// start and finish, 0 elsewhere.
std::string write_way_csv(const PumpPlan& plan) {
    CsvText csv({"setup_number", "wheel_number", "after_start_min", "clock_s",
                 "gauge_psi", "low_psi", "high_psi", "wheel", "setup"});
    for (std::size_t s = 0; s < plan.setups.size(); ++s) {
        for (std::size_t w = 0; w < 2; ++w) {
            const WheelPump& wheel = plan.setups[s].wheels[w];
            for (std::size_t t = 0; t < plan.times_s.size(); ++t) {
                const double time_s = plan.times_s[t];
                LikelyPressure likely;
                if (time_s == 0.0) likely = wheel.at_start;
                if (t + 1 == plan.times_s.size()) likely = wheel.at_finish;
                csv.add_row(
                    {std::to_string(s + 1), std::to_string(w + 1),
                     csv_number(time_s / 60.0), csv_number(plan.start_clock_s + time_s),
                     csv_number(psi(wheel.on_the_way_pa[t])),
                     csv_number(psi(likely.low_pa)), csv_number(psi(likely.high_pa)),
                     wheel.wheel, plan.setups[s].name});
            }
        }
    }
    return csv.text();
}

std::string note_setup(const SetupPump& setup) {
    const double front_pa = setup.wheels[0].at_start.typical_pa;
    const double rear_pa = setup.wheels[1].at_start.typical_pa;
    return fmt::format("front/rear at the start {:.0f}/{:.0f} psi ({:.1f}/{:.1f} bar)",
                       psi(front_pa), psi(rear_pa), front_pa / kBar_pa,
                       rear_pa / kBar_pa);
}

// The pressures at the finish stand at the ends of the lines, apart where they are close.
void set_ends(ScriptSettings& s, const PumpPlan& plan, const Interval& axis) {
    std::vector<double> front_psi, rear_psi, front_moved_px, rear_moved_px;
    std::vector<std::string> front, rear;
    for (const SetupPump& setup : plan.setups) {
        const double f = psi(setup.wheels[0].on_the_way_pa.back());
        const double r = psi(setup.wheels[1].on_the_way_pa.back());
        const double gap_px = (r - f) * kBody_px / (axis.high - axis.low);
        const double missing_px = std::max(0.0, kApart_px - std::abs(gap_px));
        const double up = r >= f ? 1.0 : -1.0;  // the higher one moves up
        front_psi.push_back(f);
        rear_psi.push_back(r);
        front_moved_px.push_back(0.5 * up * missing_px);
        rear_moved_px.push_back(-0.5 * up * missing_px);
        front.push_back(fmt::format("front {:.0f}", f));
        rear.push_back(fmt::format("rear {:.0f}", r));
    }
    s.set("FRONT_PSI", front_psi);
    s.set("REAR_PSI", rear_psi);
    s.set("FRONT_MOVED_PX", front_moved_px);
    s.set("REAR_MOVED_PX", rear_moved_px);
    s.set("FRONT_TEXT", front);
    s.set("REAR_TEXT", rear);
}

void set_limits(ScriptSettings& s, const PumpPlan& plan) {
    std::vector<double> most_psi, least_psi;
    std::vector<std::string> most[2], least[2];
    for (const SetupPump& setup : plan.setups) {
        const Limits limits = find_limits(setup);
        most_psi.push_back(limits.most_psi);
        least_psi.push_back(limits.least_psi);
        const double widths_px[2] = {kWide_px - kLeft_px - kRight_px,
                                     kPhone_px - kLeft_px - kRight_px};
        for (int page = 0; page < 2; ++page) {
            // Where there is no room for it, only the page of `pump` says whose it is.
            const auto fit = [&](const std::string& text) {
                const double size_px = kWideType_px - 1;
                if (estimate_width_px(text, size_px) <= widths_px[page]) return text;
                return fit_text(text.substr(0, text.find(", ")), size_px,
                                widths_px[page]);
            };
            most[page].push_back(fit(limits.most));
            least[page].push_back(fit(limits.least));
        }
    }
    s.set("MOST_PSI", most_psi);
    s.set("LEAST_PSI", least_psi);
    s.set("WIDE_MOST", most[0]);
    s.set("PHONE_MOST", most[1]);
    s.set("WIDE_LEAST", least[0]);
    s.set("PHONE_LEAST", least[1]);
}

std::vector<std::string> write_foot(const PumpPlan& plan) {
    const std::string pumped = plan.times_s.front() < 0.0
                                   ? "pumped " + write_clock(plan.pump_clock_s) + ", "
                                   : "pressures as stated, read off at the start; ";
    std::vector<std::string> foot{
        fmt::format("{}start {} (dashed line), finish about {}", pumped,
                    write_clock(plan.start_clock_s), write_clock(plan.finish_clock_s)),
        "front: circles; rear: squares, dashed; a typical day without flats; at the "
        "right: "
        "psi at the finish",
        "bars: 9 days in 10 (gauge, weather, leak)"};
    const bool is_missing =
        std::any_of(plan.setups.begin(), plan.setups.end(),
                    [](const SetupPump& setup) { return !setup.missing.empty(); });
    if (is_missing) foot.emplace_back("no line \"at most\": limits are not stated");
    return foot;
}

void add_pressure(const PumpPlan& plan, PictureSet& set) {
    const std::string title =
        name_race(plan.race_name) + ": tyre pressure from the pump to the finish";
    ScriptSettings s(title);
    set_sizes(s);
    const Interval axis = find_axis(plan);
    std::vector<std::string> names, notes;
    for (const SetupPump& setup : plan.setups) {
        names.push_back(clean_line(setup.name) + (setup.vetoed ? " (ruled out)" : ""));
        notes.push_back(note_setup(setup));
    }
    s.set("ROWS", static_cast<double>(plan.setups.size()));
    set_captions(s, names, notes);
    const double from_s = plan.start_clock_s + plan.times_s.front();
    const double to_s = plan.start_clock_s + plan.times_s.back();
    s.set("CLOCK_LOW", from_s - 0.02 * (to_s - from_s));
    s.set("CLOCK_HIGH", to_s + 0.02 * (to_s - from_s));
    s.set("START", plan.start_clock_s);
    set_clock_ticks(s, "WIDE_CLOCK_TICKS", from_s, to_s, 10);
    set_clock_ticks(s, "PHONE_CLOCK_TICKS", from_s, to_s, 5);
    s.set("PSI_LOW", axis.low);
    s.set("PSI_HIGH", axis.high);
    set_round_ticks(s, "PSI_TICKS", axis.low, axis.high, 6);
    set_ends(s, plan, axis);
    set_limits(s, plan);
    set_foot(s, write_foot(plan));
    set.tables.push_back({"pressure-over-time.csv", write_way_csv(plan)});
    set.pictures.push_back({"pressure", title, write_script(s, "pressure.gp")});
}

}  // namespace

}  // namespace flattail::publish

namespace flattail {

Drawn write_pump_pictures(const PumpPlan& plan, const std::string& directory) {
    using namespace publish;
    PictureSet set;
    if (!plan.setups.empty() && plan.times_s.size() > 1) add_pressure(plan, set);
    return write_drawn(set, directory);
}

}  // namespace flattail
