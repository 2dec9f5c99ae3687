#include "publish/brief/pump.h"

#include <fmt/format.h>

#include <cmath>

#include "publish/brief/calendar.h"
#include "publish/pages/text.h"
#include "publish/words.h"

namespace flattail::publish {

namespace {

// NIST SP 811, appendix B.8; 0 C = 273.15 K.
constexpr double kPascalPerPsi = 6894.757;
constexpr double kPascalPerBar = 1.0e5;
constexpr double kZeroCelsius_k = 273.15;
constexpr double kDay_s = 86400.0;

std::string say_clock(double clock_s) {
    return format_clock(60.0 *
                        std::round((clock_s < 0 ? clock_s + kDay_s : clock_s) / 60.0));
}

std::string say_day(const PumpPlan& plan, double clock_s) {
    return name_day_before(plan.date, clock_s < 0 ? 1 : 0);
}

BriefRow make_row(const std::string& label, const std::vector<PumpFigure>& front,
                  const std::vector<PumpFigure>& rear) {
    BriefRow row{label, {}};
    for (std::size_t i = 0; i < std::min(front.size(), rear.size()); ++i) {
        row.cells.push_back(say_pair(front[i].gauge_pa, rear[i].gauge_pa));
    }
    return row;
}

bool is_held_down(const WheelPump& wheel) {
    for (const PumpFigure& figure : wheel.dry) {
        if (figure.held_down) return true;
    }
    return false;
}

void add_table(const PumpPlan& plan, const SetupPump& setup, BriefPump& pump) {
    for (const double kelvin : plan.temperatures_k) {
        pump.columns.push_back(fmt::format("{:.0f} C", kelvin - kZeroCelsius_k));
    }
    const WheelPump& front = setup.wheels[0];
    const WheelPump& rear = setup.wheels[1];
    pump.rows.push_back(make_row("dry", front.dry, rear.dry));
    pump.rows.push_back(make_row("raining", front.wet, rear.wet));
    if (is_held_down(front) || is_held_down(rear)) {
        pump.lines.push_back("Held down to the limit where more would have been wanted.");
    }
    if (front.evening && rear.evening) {
        pump.lines.push_back(fmt::format(
            "Without a pump on race morning: {}, {} {}, indoors at {:.0f} C.",
            say_pair(front.evening->gauge_pa, rear.evening->gauge_pa),
            say_day(plan, plan.evening_clock_s), say_clock(plan.evening_clock_s),
            plan.evening_k - kZeroCelsius_k));
    }
}

// The lowest of what limits the two wheels.
void add_limits(const SetupPump& setup, BriefPump& pump) {
    const PressureBound* most = nullptr;
    for (const WheelPump& wheel : setup.wheels) {
        if (wheel.most && (most == nullptr || wheel.most->gauge_pa < most->gauge_pa)) {
            most = &*wheel.most;
        }
    }
    if (most == nullptr) return;
    pump.lines.push_back(fmt::format(
        "Never above {}, {}.", format_pressure(most->gauge_pa), clean_line(most->whose)));
}

}  // namespace

std::string say_pair(double front_pa, double rear_pa) {
    return fmt::format("{:.0f}/{:.0f} psi, {:.1f}/{:.1f} bar", front_pa / kPascalPerPsi,
                       rear_pa / kPascalPerPsi, front_pa / kPascalPerBar,
                       rear_pa / kPascalPerBar);
}

void add_pump(const PumpPlan& plan, int setup, BriefContent& content) {
    const SetupPump& found = plan.setups[static_cast<std::size_t>(setup)];
    BriefPump& pump = content.pump;
    pump.title = fmt::format("PUMP {} {}", say_day(plan, plan.pump_clock_s),
                             say_clock(plan.pump_clock_s));
    if (plan.time_assumed) {
        pump.lines.push_back("Assumed: pumped 2 h before the start.");
    }
    if (found.missing.empty()) {
        add_table(plan, found, pump);
        add_limits(found, pump);
        pump.lines.push_back(fmt::format(
            "With your own gauge; in the sun it reads {:.0f} to {:.0f} psi more: let no "
            "air out.",
            plan.sun_low_pa / kPascalPerPsi, plan.sun_high_pa / kPascalPerPsi));
        return;
    }
    pump.lines.push_back(
        "No table: the limits of tyre and rim are not all known here, so the pressure "
        "above was checked against none. Read the markings before you pump.");
}

}  // namespace flattail::publish
