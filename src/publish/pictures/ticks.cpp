#include "publish/pictures/ticks.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <vector>

#include "publish/pictures/time_axis.h"
#include "publish/words.h"

namespace flattail::publish {

namespace {

struct Ticks {
    std::vector<double> places;
    std::vector<std::string> labels;
};

// At most `most` round numbers from low to high, 1, 2 or 5 times a power of ten apart.
Ticks make_round_ticks(double low, double high, int most) {
    double step = std::pow(10.0, std::floor(std::log10((high - low) / most)));
    for (const double factor : {2.0, 2.5, 2.0}) {
        if ((high - low) / step + 1.0 <= most) break;
        step *= factor;
    }
    Ticks ticks;
    for (double tick = std::ceil(low / step) * step; tick <= high + 1e-9; tick += step) {
        ticks.places.push_back(tick == 0.0 ? 0.0 : tick);
        ticks.labels.push_back(fmt::format("{:g}", tick == 0.0 ? 0.0 : tick));
    }
    return ticks;
}

double find_round_step(double range, int most_ticks) {
    constexpr std::array<double, 14> kSteps{5,   10,  15,   30,   60,   120,   300,
                                            600, 900, 1800, 3600, 7200, 14400, 28800};
    for (const double step : kSteps) {
        if (range / step + 1.0 <= most_ticks) return step;
    }
    return 28800.0 * std::ceil(range / 28800.0 / most_ticks);
}

}  // namespace

void set_time_ticks(ScriptSettings& s, const std::string& prefix, double low_s,
                    double high_s, int wide_ticks, int phone_ticks) {
    const TimeAxis wide = make_time_axis(low_s, high_s, wide_ticks);
    const TimeAxis phone = make_time_axis(low_s, high_s, phone_ticks);
    s.set_ticks(prefix + "WIDE_TICKS", label_ticks(wide), wide.ticks_s);
    s.set_ticks(prefix + "PHONE_TICKS", label_ticks(phone), phone.ticks_s);
}

void set_net_ticks(ScriptSettings& s, const std::string& name, const Interval& axis_s,
                   int most_ticks) {
    const double step_s = find_round_step(axis_s.high - axis_s.low, most_ticks);
    std::vector<double> places;
    std::vector<std::string> labels;
    for (double tick = std::ceil(axis_s.low / step_s) * step_s; tick <= axis_s.high;
         tick += step_s) {
        places.push_back(tick == 0.0 ? 0.0 : tick);
        labels.push_back(format_difference(tick));
    }
    s.set_ticks(name, labels, places);
}

void set_round_ticks(ScriptSettings& s, const std::string& name, double low, double high,
                     int most) {
    const Ticks ticks = make_round_ticks(low, high, most);
    s.set_ticks(name, ticks.labels, ticks.places);
}

void set_clock_ticks(ScriptSettings& s, const std::string& name, double from_s,
                     double to_s, int most) {
    constexpr double kDay_s = 86400.0;
    std::vector<std::string> labels;
    const TimeAxis axis = make_time_axis(from_s, to_s, most);
    for (const double tick_s : axis.ticks_s) {
        const double of_day_s = tick_s - kDay_s * std::floor(tick_s / kDay_s);
        labels.push_back(format_clock(of_day_s));
    }
    s.set_ticks(name, labels, axis.ticks_s);
}

}  // namespace flattail::publish
