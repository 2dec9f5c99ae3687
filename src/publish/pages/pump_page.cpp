// What to pump, on one page.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "flattail/preparation.h"
#include "publish/pages/text.h"
#include "publish/pages/text_table.h"
#include "publish/words.h"

namespace flattail {

namespace {

using namespace publish;
using Lines = std::vector<std::string>;

constexpr double kPsi_pa = 6894.757293168;  // NIST SP 811 (2008), appendix B.8
constexpr double kBar_pa = 1e5;
constexpr double kZeroCelsius_k = 273.15;
constexpr int kCurveColumns = 30;
// A curve flatter than this is drawn flat rather than blown up to full height.
constexpr double kSmallestRange_pa = 10.0 * kPsi_pa;

std::string write_psi(double pa) { return fmt::format("{:.0f}", pa / kPsi_pa); }
std::string write_bar(double pa) { return fmt::format("{:.1f}", pa / kBar_pa); }

std::string write_both(double front_pa, double rear_pa) {
    return fmt::format("{}/{} psi ({}/{} bar)", write_psi(front_pa), write_psi(rear_pa),
                       write_bar(front_pa), write_bar(rear_pa));
}

std::string write_celsius(double kelvin) {
    return fmt::format("{:.0f} C", kelvin - kZeroCelsius_k);
}

// A clock of the day before is told so.
std::string write_clock(double clock_s) {
    constexpr double kDay_s = 86400.0;
    clock_s = std::round(clock_s / 60.0) * 60.0;
    if (clock_s >= 0.0) return format_clock(clock_s);
    const double days = std::ceil(-clock_s / kDay_s);
    const std::string clock = format_clock(clock_s + days * kDay_s);
    return days > 1.0 ? fmt::format("{} {:.0f} days before", clock, days)
                      : clock + " the day before";
}

std::string mark_held(const PumpFigure& figure) {
    return figure.held_down ? "!" : figure.held_up ? "+" : "";
}

using Write = std::string (*)(double);

TextRow lay_row(const SetupPump& setup, bool dry, const char* name, Write write) {
    TextRow row;
    row.mark = "    ";
    row.name = name;
    const auto& front = dry ? setup.wheels[0].dry : setup.wheels[0].wet;
    const auto& rear = dry ? setup.wheels[1].dry : setup.wheels[1].wet;
    for (std::size_t i = 0; i < front.size(); ++i) {
        row.cells.push_back(write(front[i].gauge_pa) + mark_held(front[i]) + '/' +
                            write(rear[i].gauge_pa) + mark_held(rear[i]));
    }
    return row;
}

Lines lay_table_of(const PumpPlan& plan, const SetupPump& setup,
                   const PageOptions& options) {
    TextTable table;
    table.corner = "  air and bike at";
    for (const double temperature_k : plan.temperatures_k) {
        table.columns.push_back({{write_celsius(temperature_k)}, Align::kEnd, 3});
    }
    table.rows = {lay_row(setup, true, "dry, psi", write_psi),
                  lay_row(setup, true, "     bar", write_bar),
                  lay_row(setup, false, "raining, psi", write_psi),
                  lay_row(setup, false, "         bar", write_bar)};
    return lay_table(table, options);
}

void append(Lines& lines, const std::string& text, const PageOptions& options,
            const std::string& head = "  ") {
    for (std::string& line : wrap(text, options.width, head)) {
        lines.push_back(std::move(line));
    }
}

std::string name_bounds(const PressureBound& front, const PressureBound& rear) {
    if (front.gauge_pa == rear.gauge_pa && front.whose == rear.whose) {
        return fmt::format("{}, {}", format_pressure(front.gauge_pa), front.whose);
    }
    return fmt::format("{}, {} / {}", write_both(front.gauge_pa, rear.gauge_pa),
                       front.whose, rear.whose);
}

std::string describe_bounds(const PumpPlan& plan, const WheelPump& front,
                            const WheelPump& rear) {
    std::string text = "At most " + name_bounds(*front.most, *rear.most);
    text += fmt::format(
        "; at {}, the hottest it may get, the stated pressure is {}/{} "
        "psi",
        write_celsius(plan.hottest_k), write_psi(front.hottest_pa),
        write_psi(rear.hottest_pa));
    if (front.hottest_pa > front.most->gauge_pa ||
        rear.hottest_pa > rear.most->gauge_pa) {
        text += ", OVER THE LIMIT";
    }
    if (front.least && rear.least) {
        text += "; at least " + name_bounds(*front.least, *rear.least);
    }
    return text + fmt::format("; below {} {} as usual.",
                              write_both(front.pinch.gauge_pa, rear.pinch.gauge_pa),
                              front.pinch.whose);
}

// One figure where both wheels have the same.
std::string write_one_or_both(double front_pa, double rear_pa) {
    return front_pa == rear_pa ? format_pressure(front_pa)
                               : write_both(front_pa, rear_pa);
}

void append_cartridge(const SetupPump& setup, const PageOptions& options, Lines& lines) {
    const WheelPump& front = setup.wheels[0];
    const WheelPump& rear = setup.wheels[1];
    if (!front.cartridge_pa || !rear.cartridge_pa) return;
    // Real tyres hold more than a torus of their width, by up to a tenth; clumsy fills
    // lose more.
    constexpr double kWorst = 0.85;
    append(
        lines,
        fmt::format(
            "One cartridge of {:.0f} g gives about {} here, 8 % lost; {} at worst.",
            setup.cartridge_kg * 1000.0,
            write_one_or_both(*front.cartridge_pa, *rear.cartridge_pa),
            write_one_or_both(kWorst * *front.cartridge_pa, kWorst * *rear.cartridge_pa)),
        options);
}

void append_setup(const PumpPlan& plan, const SetupPump& setup,
                  const PageOptions& options, Lines& lines) {
    const WheelPump& front = setup.wheels[0];
    const WheelPump& rear = setup.wheels[1];
    lines.emplace_back();
    append(lines,
           fmt::format("{}: {} at the start, {} at the finish{}", setup.name,
                       write_both(front.at_start.typical_pa, rear.at_start.typical_pa),
                       write_both(front.at_finish.typical_pa, rear.at_finish.typical_pa),
                       setup.vetoed ? " (ruled out, see check)" : ""),
           options, "");
    if (!setup.missing.empty()) {
        append(lines, "No figure: limits are not stated, see ADD below.", options);
        return;
    }
    for (std::string& line : lay_table_of(plan, setup, options)) {
        lines.push_back(std::move(line));
    }
    append(lines,
           fmt::format(
               "Without a pump on race morning: {}{}/{}{} psi ({}/{} bar) at {}, indoors "
               "at {}.",
               write_psi(front.evening->gauge_pa), mark_held(*front.evening),
               write_psi(rear.evening->gauge_pa), mark_held(*rear.evening),
               write_bar(front.evening->gauge_pa), write_bar(rear.evening->gauge_pa),
               write_clock(plan.evening_clock_s), write_celsius(plan.evening_k)),
           options);
    append_cartridge(setup, options, lines);
    append(lines, describe_bounds(plan, front, rear), options);
}

// What several setups lack is asked for once.
void append_missing(const PumpPlan& plan, const PageOptions& options, Lines& lines) {
    Lines missing;
    for (const SetupPump& setup : plan.setups) {
        for (const std::string& line : setup.missing) {
            if (std::count(missing.begin(), missing.end(), line) == 0) {
                missing.push_back(line);
            }
        }
    }
    if (missing.empty()) return;
    lines.emplace_back();
    append(lines,
           "ADD to the scenario, as marked on tyre and rim, for a figure:", options, "");
    for (const std::string& line : missing) append(lines, line, options);
}

double read_curve(const PumpPlan& plan, const WheelPump& wheel, double time_s) {
    const auto& times = plan.times_s;
    const auto after = std::upper_bound(times.begin(), times.end(), time_s);
    if (after == times.end()) return wheel.on_the_way_pa.back();
    const auto i = static_cast<std::size_t>(after - times.begin());
    if (i == 0) return wheel.on_the_way_pa.front();
    const double share = (time_s - times[i - 1]) / (times[i] - times[i - 1]);
    return wheel.on_the_way_pa[i - 1] +
           share * (wheel.on_the_way_pa[i] - wheel.on_the_way_pa[i - 1]);
}

std::string draw_curve(const PumpPlan& plan, const WheelPump& wheel, double low_pa,
                       double range_pa) {
    constexpr std::array<const char*, 8> kBlocks{"\u2581", "\u2582", "\u2583", "\u2584",
                                                 "\u2585", "\u2586", "\u2587", "\u2588"};
    std::string curve;
    const double from_s = plan.times_s.front(), to_s = plan.times_s.back();
    for (int i = 0; i < kCurveColumns; ++i) {
        const double time_s = from_s + (to_s - from_s) * i / (kCurveColumns - 1);
        const double share = (read_curve(plan, wheel, time_s) - low_pa) / range_pa;
        const auto level = std::lround(std::clamp(share, 0.0, 1.0) * 7.0);
        curve += kBlocks[static_cast<std::size_t>(level)];
    }
    return curve;
}

void append_curves(const PumpPlan& plan, const PageOptions& options, Lines& lines) {
    double low_pa = 1e9, high_pa = 0.0;
    std::vector<std::string> names;
    for (const SetupPump& setup : plan.setups) {
        names.push_back(setup.name);
        for (const double pa : setup.wheels[1].on_the_way_pa) {
            low_pa = std::min(low_pa, pa);
            high_pa = std::max(high_pa, pa);
        }
    }
    const double range_pa = std::max(high_pa - low_pa, kSmallestRange_pa);
    low_pa = high_pa - range_pa;
    const double from_s = plan.start_clock_s + plan.times_s.front();
    lines.emplace_back();
    append(lines,
           fmt::format("REAR TYRE, psi, from {} to the finish about {}, start {}",
                       write_clock(from_s), write_clock(plan.finish_clock_s),
                       format_clock(plan.start_clock_s)),
           options, "");
    names = shorten_names(names, 24);
    int width = 0;
    for (const std::string& name : names) width = std::max(width, measure_width(name));
    for (std::size_t s = 0; s < names.size(); ++s) {
        const WheelPump& wheel = plan.setups[s].wheels[1];
        lines.push_back(fmt::format("  {}  {:5.1f} {} {:5.1f}", pad_end(names[s], width),
                                    wheel.on_the_way_pa.front() / kPsi_pa,
                                    draw_curve(plan, wheel, low_pa, range_pa),
                                    wheel.on_the_way_pa.back() / kPsi_pa));
    }
}

void append_head(const PumpPlan& plan, const PageOptions& options, Lines& lines) {
    append(lines,
           fmt::format("{}: what to pump, start {} {}", plan.race_name,
                       format_date(plan.date), format_clock(plan.start_clock_s)),
           options, "");
    if (!plan.rider_name.empty()) append(lines, plan.rider_name, options, "");
    if (plan.invented) {
        append(lines, "Invented example: rider, place and day are fictional.", options,
               "");
    }
    lines.emplace_back();
    append(lines,
           fmt::format("PUMP at {}{}; the race starts at {}, the forecast's. The table "
                       "gives front/rear for the stated pressure at the start.",
                       write_clock(plan.pump_clock_s),
                       plan.time_assumed ? " (2 h before, assumed: write preparation = { "
                                           "before = \"2 h\" })"
                                         : "",
                       write_celsius(plan.start_k)),
           options, "");
}

void append_notes(const PumpPlan& plan, const PageOptions& options, Lines& lines) {
    const auto is_any = [&](auto held) {
        return std::any_of(
            plan.setups.begin(), plan.setups.end(), [&](const SetupPump& setup) {
                const auto any = [&](const std::vector<PumpFigure>& figures) {
                    return std::any_of(figures.begin(), figures.end(), held);
                };
                return std::any_of(setup.wheels.begin(), setup.wheels.end(),
                                   [&](const WheelPump& wheel) {
                                       return any(wheel.dry) || any(wheel.wet) ||
                                              (wheel.evening && held(*wheel.evening));
                                   });
            });
    };
    lines.emplace_back();
    if (is_any([](const PumpFigure& f) { return f.held_down; })) {
        append(lines, "held at what keeps the limit at the hottest moment.", options,
               "  ! ");
    }
    if (is_any([](const PumpFigure& f) { return f.held_up; })) {
        append(lines, "held at the least that the tyre's maker allows.", options, "  + ");
    }
    append(
        lines,
        fmt::format("Own gauge: 9 readings in 10 within {} psi, a stranger's within "
                    "{}. In the sun it reads {} to {} psi more: let no air out. Raining: "
                    "{:.1f} bar less, for grip, same tubes. CO2 leaks out of latex "
                    "within the race.",
                    write_psi(plan.own_gauge_pa), write_psi(plan.strangers_gauge_pa),
                    write_psi(plan.sun_low_pa), write_psi(plan.sun_high_pa),
                    plan.wet_less_pa / kBar_pa),
        options, "");
    append(
        lines,
        "Stay at or below the lower of the tyre's and the rim's maximum; hookless rims "
        "hold 5 bar at most. The maker's marking and a qualified mechanic come first.",
        options, "");
}

std::string join(const Lines& lines) {
    std::string text;
    for (const std::string& line : lines) text += line + '\n';
    return text;
}

}  // namespace

std::string write_pump_page(const PumpPlan& plan, const PageOptions& asked) {
    PageOptions options = asked;
    options.width = std::max(asked.width, 80);
    Lines lines;
    append_head(plan, options, lines);
    for (const SetupPump& setup : plan.setups) append_setup(plan, setup, options, lines);
    append_missing(plan, options, lines);
    append_curves(plan, options, lines);
    append_notes(plan, options, lines);
    if (!options.tables_directory.empty()) {
        append(lines, "Tables: " + options.tables_directory, options, "");
    }
    return join(lines);
}

}  // namespace flattail
