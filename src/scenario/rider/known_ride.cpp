#include "scenario/rider/known_ride.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "chance/make_distribution.h"
#include "input/toml/node_values.h"
#include "scenario/values/defaults.h"

namespace flattail::scenario {

namespace {

using input::Dimension;
using input::Node;

constexpr const char* kThreeWays =
    "write power = \"200 W\", or past_ride = { distance = \"40 km\", time = "
    "\"1:05:00\", climb = \"300 m\" }, or expected_split = \"2:40:00\"";

Spec name_past(const char* key, Dimension dimension, const Unit& unit, double least,
               double most, const char* advice) {
    Spec spec;
    spec.name = std::string("rider.past_ride.") + key;
    spec.dimension = dimension;
    spec.unit = unit;
    spec.least = least;
    spec.most = most;
    spec.advice = advice;
    return spec;
}

// A spec of the scenario under a name inside the past ride.
Spec rename_past(const char* name, const char* key) {
    Spec spec = find_spec(name);
    spec.name = std::string("rider.past_ride.") + key;
    return spec;
}

std::string describe(const PastRide& ride) {
    std::string text = fmt::format("{} in {}", write_value(kKilometre, ride.distance_m),
                                   write_hours(ride.time_s));
    if (ride.climb_m > 0.0) text += ", " + write_value(kMetre, ride.climb_m) + " up";
    if (ride.power_w) text += " at " + write_value(kWatt, *ride.power_w);
    return text;
}

std::optional<PastRide> read_past_ride(Draft& draft, Table& rider) {
    const int errors_before = draft.problems.error_count();
    Table table = rider.find_table("past_ride");
    const auto distance =
        table.find_value(name_past("distance", Dimension::kLength, kKilometre, 2, 500,
                                   "write a length like \"40 km\""));
    const auto time = table.find_value(name_past("time", Dimension::kTime, kHour, 0.05,
                                                 48, "write a time like \"1:05:00\""));
    const auto climb = table.find_value(name_past(
        "climb", Dimension::kLength, kMetre, 0, 15000, "write a height like \"300 m\""));
    for (const char* key : {"distance", "time"}) {
        if (table.find(key) || !table.is_stated()) continue;
        draft.problems.add_error(
            table.place(), fmt::format("rider.past_ride.{} is missing", key),
            "write past_ride = { distance = \"40 km\", time = \"1:05:00\" }");
    }
    PastRide ride;
    ride.power_w = table.find_value(rename_past("rider.power", "power"));
    ride.wind_m_s = table.find_value(rename_past("weather.wind", "wind"));
    ride.position = find_position(table);
    table.reject_unknown_keys();
    // Steeper on average than any pass road: a slip in the numbers.
    constexpr double kSteepestMean = 0.05;
    ride.climb_m = climb.value_or(0.0);
    if (distance && ride.climb_m > kSteepestMean * *distance) {
        table.add_error(*table.find("climb"),
                        fmt::format("rider.past_ride climbs {} in {}, which no road does",
                                    write_value(kMetre, ride.climb_m),
                                    write_value(kKilometre, *distance)),
                        "write the climb of the whole ride, like \"300 m\"");
    }
    if (draft.problems.error_count() != errors_before) return std::nullopt;
    ride.distance_m = *distance;
    ride.time_s = *time;
    ride.text = describe(ride);
    return ride;
}

void read_split(Draft& draft, const Node& node, KnownRide& known) {
    const auto time_s = input::read_quantity(node, Dimension::kTime, draft.problems);
    if (!time_s) return;
    if (*time_s <= 0.0) {
        draft.problems.add_error(node.place, "rider.expected_split is no time above zero",
                                 "write a time like \"2:40:00\"");
        return;
    }
    known.split_s = time_s;
    known.split_text = write_hours(*time_s);
}

// Power is said once, and so is drag area.
void refuse_twice(Draft& draft, Table& rider, const KnownRide& known,
                  const DragStatement& drag) {
    const Node* power = rider.find("power");
    const Node* past = rider.find("past_ride");
    const Node* split = rider.find("expected_split");
    const auto refuse = [&](const Node& node, const char* what, const char* hint) {
        draft.problems.add_error(node.place, what, hint);
    };
    const bool past_has_power = known.past && known.past->power_w;
    if (power && split) {
        refuse(*split, "rider.power and rider.expected_split both say what the power is",
               "keep one of them");
    }
    if (past && split) {
        refuse(*split,
               "rider.past_ride and rider.expected_split both say what the power is",
               "keep one of them");
    }
    if (power && known.past && !past_has_power) {
        refuse(*past, "rider.power and rider.past_ride both say what the power is",
               "keep one, or add the power of that ride: then it tells the drag area");
    }
    if (past_has_power && drag.is_stated) {
        refuse(*past,
               "rider.drag_area and a past ride with its power both say what the drag "
               "area is",
               "keep one of them");
    }
}

// Day-to-day luck of power; common practice (tested riders 2.5 %). Who has no meter rides
// by feel.
double read_day_sd(Table& rider, bool by_feel) {
    constexpr std::array<double, 2> kDaySd = {0.035, 0.05};
    static const Words kSources = {"meter", "feel"};
    return kDaySd[rider.find_word("power_from", kSources).value_or(by_feel ? 1 : 0)];
}

Input make_power(Table& rider, double day_sd) {
    const Spec& spec = find_spec("rider.power");
    const Node* node = rider.find("power");
    Input power = node ? read_input(rider, spec) : make_usual_input(spec);
    const bool has_luck =
        node && node->is(input::NodeKind::kTable) &&
        (power.deviation != Deviation::kNone || power.knowledge.shape == Shape::kPoint);
    if (has_luck) return power;
    // Luck stays unless the power itself is stated with a spread from day to day.
    power.luck = chance::make_lognormal_mean_cv(1.0, day_sd);
    power.deviation = Deviation::kMultiply;
    power.origin = Origin::kCommonPractice;
    power.source =
        fmt::format("stated; its spread of {:.3g} % is common practice", 100 * day_sd);
    return power;
}

}  // namespace

std::string write_hours(double time_s) {
    const auto seconds = std::lround(time_s);
    return fmt::format("{}:{:02}:{:02}", seconds / 3600, seconds / 60 % 60, seconds % 60);
}

KnownRide read_power(Draft& draft, Table& rider, const DragStatement& drag) {
    KnownRide known;
    const Node* power = rider.find("power");
    const Node* past = rider.find("past_ride");
    const Node* split = rider.find("expected_split");
    known.power_stated = power != nullptr;
    if (past) known.past = read_past_ride(draft, rider);
    if (split) read_split(draft, *split, known);
    if (past || split) known.place = past ? past->place : split->place;
    refuse_twice(draft, rider, known, drag);
    if (!power && !past && !split) {
        draft.problems.add_error(rider.place(), "rider.power is missing", kThreeWays);
    }
    const bool metered = power || !known.past || known.past->power_w.has_value();
    known.day_sd = read_day_sd(rider, split ? true : !metered);
    draft.model.rider.power_w = add_input(draft, make_power(rider, known.day_sd));
    return known;
}

}  // namespace flattail::scenario
