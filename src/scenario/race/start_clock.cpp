#include "scenario/race/start_clock.h"

#include <fmt/format.h>

#include <cmath>

#include "chance/distribution.h"
#include "input/toml/node_values.h"
#include "scenario/values/defaults.h"

namespace flattail::scenario {

namespace {

using input::Node;

constexpr double kDay_s = 86400.0;

// A clock with or without a date; the date is kept.
std::optional<double> read_day_and_clock(Draft& draft, const Node& node) {
    const auto clock = input::read_clock(node, draft.problems);
    if (!clock) return std::nullopt;
    if (clock->date) {
        draft.model.race.date =
            fmt::format("{:04}-{:02}-{:02}", int(clock->date->year()),
                        unsigned(clock->date->month()), unsigned(clock->date->day()));
    }
    return clock->second_of_day;
}

double find_middle(const Input& input) {
    return summarise(input.knowledge, input.luck, input.deviation).mid;
}

bool refuse_half_a_morning(Draft& draft, Table& race) {
    const Node* start = race.find("bike_start");
    const Node* wave = race.find("wave");
    const Node* swim = race.find("swim");
    const Node* transition = race.find("transition");
    const int errors_before = draft.problems.error_count();
    if (start && wave) {
        race.add_error(*wave,
                       "race.bike_start and race.wave both say when the ride starts",
                       "keep bike_start, or wave with swim and transition");
    }
    for (const Node* node : {swim, transition}) {
        if (!node || wave) continue;
        race.add_error(*node,
                       fmt::format("race.{} needs the clock of the wave", node->key),
                       "write wave = \"07:15\" too, or bike_start alone");
    }
    if (wave && !swim && !start) {
        race.add_error(*wave, "race.wave needs the time of the swim",
                       "write swim = { low = \"31 min\", high = \"37 min\" }, or "
                       "bike_start alone");
    }
    return draft.problems.error_count() != errors_before;
}

void read_wave(Draft& draft, Table& race, const Node& wave) {
    Race& model = draft.model.race;
    const auto clock_s = read_day_and_clock(draft, wave);
    Input swim = read_input(race, find_spec("race.swim"));
    Input transition = read_input(race, find_spec("race.transition"));
    model.start_clock_s =
        clock_s.value_or(0.0) + find_middle(swim) + find_middle(transition);
    model.wave_clock_s = clock_s.value_or(0.0);
    model.swim_s = add_input(draft, std::move(swim));
    model.transition_s = add_input(draft, std::move(transition));
    note_choice(draft, "race.bike_start", "start of the ride, on a typical day",
                write_clock(60.0 * std::round(model.start_clock_s / 60.0)),
                Origin::kStated, "stated wave, swim and transition");
}

}  // namespace

void read_start_clock(Draft& draft, Table& race) {
    const Node* start = race.find("bike_start");
    const Node* wave = race.find("wave");
    if (refuse_half_a_morning(draft, race)) return;
    if (wave) return read_wave(draft, race, *wave);
    if (!start) {
        note_choice(draft, "race.bike_start", "start of the ride", "09:00",
                    Origin::kAssumption, "assumption");
        return;
    }
    const auto clock_s = read_day_and_clock(draft, *start);
    if (clock_s) draft.model.race.start_clock_s = *clock_s;
}

std::string write_clock(double clock_s) {
    const auto seconds = std::lround(std::fmod(clock_s, kDay_s));
    const auto text = fmt::format("{:02}:{:02}", seconds / 3600 % 24, seconds / 60 % 60);
    return seconds % 60 == 0 ? text : fmt::format("{}:{:02}", text, seconds % 60);
}

}  // namespace flattail::scenario
