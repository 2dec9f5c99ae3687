// What a rider without a power meter knows: a ride of the past, or the split to expect.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "scenario/draft.h"
#include "scenario/rider/drag_area.h"

namespace flattail::scenario {

/// A solo ride of the past, ridden as hard as the race will be.
struct PastRide {
    double distance_m = 0.0;
    double time_s = 0.0;
    double climb_m = 0.0;
    std::optional<double> power_w;
    std::optional<std::size_t> position;
    std::optional<double> wind_m_s;  // at 10 m
    std::string text;                // "40 km in 1:05:00, 300 m up"
};

/// Where power comes from. Without a stated power one of the other two is there.
struct KnownRide {
    std::optional<PastRide> past;
    std::optional<double> split_s;
    std::string split_text;
    bool power_stated = false;
    double day_sd = 0.0;  // of power, share
    Place place;          // of what power is solved from
};

/// `rider.power`, `rider.past_ride` and `rider.expected_split`: exactly one says what the
/// power is; a past ride with its power says what the drag area is. Adds the input of
/// power, whose centre settle_rider fills in where it was not stated.
KnownRide read_power(Draft& draft, Table& rider, const DragStatement& drag);

/// "1:05:00"
std::string write_hours(double time_s);

}  // namespace flattail::scenario
