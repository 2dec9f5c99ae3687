// One ride as a page: a line every few kilometres, and what happened between them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "flattail/replay.h"
#include "publish/pages/page.h"
#include "publish/pages/text.h"
#include "publish/words.h"

namespace flattail {

namespace {

using Lines = std::vector<std::string>;

// Lines of a page that is read at one sitting.
constexpr double kMostRows = 20.0;

double find_step_m(double length_m) {
    for (const double step_m : {1e3, 2e3, 5e3, 10e3, 20e3}) {
        if (length_m / step_m <= kMostRows) return step_m;
    }
    return 50e3;
}

// "12 on", "8 back": km/h from ahead or behind.
std::string write_wind(const ReplayPoint& p) {
    const double head_km_h = 3.6 * p.head_wind_m_s;
    return fmt::format("{:.0f} {}", std::abs(head_km_h),
                       head_km_h >= 0.0 ? "ahead" : "behind");
}

std::string write_row(const Replay& replay, const ReplayPoint& p) {
    return fmt::format(
        "{:>6.1f}  {:>7}  {:>8}  {:>5.1f}  {:>4.0f}  {:>10}  {:.1f}/{:.1f}",
        p.place_m / 1000.0, publish::format_duration(p.time_s),
        publish::format_clock(replay.start_clock_s + p.time_s), 3.6 * p.speed_m_s,
        p.power_w, write_wind(p), p.front_pa / 1e5, p.rear_pa / 1e5);
}

std::string describe_end(const Replay& replay) {
    std::string text = std::isfinite(replay.finish_s)
                           ? "Finished in " + publish::format_duration(replay.finish_s)
                           : "No finish: " + replay.ending;
    if (replay.flats > 0) {
        text += fmt::format(
            ". {} flat{}, {} lost to {}", replay.flats, replay.flats == 1 ? "" : "s",
            publish::format_duration(replay.lost_s), replay.flats == 1 ? "it" : "them");
    }
    return text + ".";
}

void append_rows(const Replay& replay, const PageOptions& options, Lines& page) {
    if (replay.points.empty()) return;
    const double step_m = find_step_m(replay.points.back().place_m);
    double wanted_m = step_m;
    std::size_t next = 0;
    const auto append_events = [&](double time_s) {
        for (; next < replay.events.size() && replay.events[next].time_s <= time_s;
             ++next) {
            const ReplayEvent& event = replay.events[next];
            const std::string head = fmt::format("{:>6.1f}  ", event.place_m / 1000.0);
            for (const std::string& line :
                 publish::wrap(event.words, options.width, head)) {
                page.push_back(
                    publish::paint(line, publish::Ink::kStrong, options.colour));
            }
        }
    };
    for (std::size_t i = 0; i < replay.points.size(); ++i) {
        const ReplayPoint& p = replay.points[i];
        append_events(p.time_s);
        if (p.place_m < wanted_m && i + 1 < replay.points.size()) continue;
        page.push_back(write_row(replay, p));
        while (wanted_m <= p.place_m) wanted_m += step_m;
    }
    append_events(1e18);
}

}  // namespace

std::string write_replay_page(const Replay& replay, const PageOptions& raw_options) {
    using namespace publish;
    const PageOptions options = settle_options(raw_options);
    Lines page{paint(shorten_end(clean_line(replay.race_name), options.width),
                     Ink::kStrong, options.colour)};
    for (const std::string& line :
         wrap(fmt::format("Race day {}, {}, seed {}", replay.race,
                          clean_line(replay.setup), replay.seed),
              options.width)) {
        page.push_back(line);
    }
    if (replay.invented) {
        page.emplace_back("Invented example: rider, place and day are fictional.");
    }
    Lines rows{"    km     time     clock   km/h     W  wind, km/h  bar front/rear"};
    append_rows(replay, options, rows);
    append_section(page, std::move(rows));
    append_section(page, wrap(describe_end(replay), options.width));
    return join_lines(page);
}

}  // namespace flattail
