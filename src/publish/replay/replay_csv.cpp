// replay.csv: one ride, a row at the end of every piece of road.
#include <fmt/format.h>

#include "flattail/replay.h"
#include "publish/tables/csv_text.h"
#include "publish/tables/write_files.h"
#include "publish/words.h"

namespace flattail {

namespace {

using publish::csv_number;

// What happened up to a place, joined; `next` moves past it.
std::string join_events(const Replay& replay, double time_s, std::size_t& next) {
    std::string text;
    for (; next < replay.events.size() && replay.events[next].time_s <= time_s; ++next) {
        text += (text.empty() ? "" : "; ") + replay.events[next].words;
    }
    return text;
}

}  // namespace

void write_replay_table(const Replay& replay, const std::string& directory) {
    publish::CsvText table({"km", "time_s", "clock", "speed_km_h", "power_w", "wind_km_h",
                            "head_wind_km_h", "front_bar", "rear_bar", "events"});
    std::size_t next = 0;
    for (const ReplayPoint& p : replay.points) {
        table.add_row({csv_number(p.place_m / 1000.0), csv_number(p.time_s),
                       publish::format_clock(replay.start_clock_s + p.time_s),
                       csv_number(3.6 * p.speed_m_s), csv_number(p.power_w),
                       csv_number(3.6 * p.wind_m_s), csv_number(3.6 * p.head_wind_m_s),
                       csv_number(p.front_pa / 1e5), csv_number(p.rear_pa / 1e5),
                       join_events(replay, p.time_s, next)});
    }
    // A ride that ended on the way: its last events have no end of a piece behind them.
    for (; next < replay.events.size(); ++next) {
        const ReplayEvent& event = replay.events[next];
        table.add_row({csv_number(event.place_m / 1000.0), csv_number(event.time_s),
                       publish::format_clock(replay.start_clock_s + event.time_s), "", "",
                       "", "", "", "", event.words});
    }
    publish::write_files_together(directory, {{"replay.csv", table.text()}});
}

}  // namespace flattail
