// One ride of a study again, written down along the course.
#include "flattail/replay.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "ride/trace.h"
#include "study/listing/endings.h"
#include "study/prepared.h"
#include "study/replay/ride_words.h"

namespace flattail {

namespace {

int find_setup(const scenario::Model& model, const std::string& name) {
    const auto lower = [](std::string text) {
        for (char& c : text) {
            if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        }
        return text;
    };
    std::string known;
    for (std::size_t s = 0; s < model.setups.size(); ++s) {
        if (lower(model.setups[s].name) == lower(name)) return static_cast<int>(s);
        known += (known.empty() ? "\"" : ", \"") + model.setups[s].name + "\"";
    }
    throw InvalidInput({{{},
                         fmt::format("no setup is called \"{}\"", name),
                         "write --setup with one of: " + known}});
}

void check_race(const ReplayRequest& request) {
    const std::int64_t races = request.study.races;
    if (request.race >= 0 && request.race < races) return;
    throw InvalidInput(
        {{{},
          fmt::format("race {} is outside 0 to {}", request.race, races - 1),
          "take a number from the column `day` of days.csv, and --races as that study "
          "had it"}});
}

ReplayPoint copy_point(const ride::TracePoint& point) {
    return {point.place_m,  point.time_s,        point.speed_m_s,   point.power_w,
            point.wind_m_s, point.head_wind_m_s, point.gauge_pa[0], point.gauge_pa[1]};
}

void tell(const ride::RideTrace& trace, const ride::RideResult& result, Replay& replay) {
    for (const ride::TracePoint& point : trace.points) {
        replay.points.push_back(copy_point(point));
    }
    for (const ride::TraceEvent& event : trace.events) {
        replay.events.push_back(
            {event.place_m, event.time_s, study::describe_event(event)});
    }
    if (ride::is_over_cutoff(result.ending) && !replay.points.empty()) {
        const ReplayPoint& last = replay.points.back();
        replay.events.push_back(
            {last.place_m, last.time_s,
             std::string("out of the race: ") + study::name_ending(result.ending)});
    }
    replay.start_clock_s = trace.start_clock_s;
    const bool finished = result.ending == ride::Ending::kFinished;
    replay.finish_s = finished ? result.time_s : std::numeric_limits<double>::infinity();
    replay.ending = study::name_ending(result.ending);
    replay.lost_s = static_cast<double>(result.lost_s);
    replay.flats = result.flats;
}

}  // namespace

Replay replay_race(const Scenario& scenario, const ReplayRequest& request) {
    const scenario::Model& model = scenario.model();
    check_race(request);
    const int setup = find_setup(model, request.setup);
    const study::Prepared prepared = study::prepare(model, request.study);
    sampling::DayBlock days = prepared.days->make_block();
    const auto race = static_cast<std::uint64_t>(request.race);
    prepared.days->fill(race / sampling::kLanes * sampling::kLanes, days);
    ride::BlockRider rider(prepared.ride_plan());
    ride::RideTrace trace;
    const ride::RideResult result =
        rider.trace(days, setup, static_cast<int>(race % sampling::kLanes), trace);
    Replay replay;
    replay.race_name = model.race.name;
    replay.rider_name = model.rider.name;
    replay.invented = model.race.invented;
    replay.race = request.race;
    replay.setup = model.setups[static_cast<std::size_t>(setup)].name;
    replay.seed = request.study.seed;
    tell(trace, result, replay);
    return replay;
}

}  // namespace flattail
