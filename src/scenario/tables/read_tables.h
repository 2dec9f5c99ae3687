// The tables of a scenario file, one function each. Every one fills its part of the draft
// and adds problems for what cannot be used; none stops at the first.
#pragma once

#include "course/request.h"
#include "input/toml/document.h"
#include "scenario/draft.h"
#include "scenario/rider/known_ride.h"

namespace flattail::scenario {

/// `race` but for its course. `race.official_distance`, errors and laps go to the course.
void read_race(Draft& draft, Table& race);
/// Goals and cutoff against the length of the course, once that is known.
void check_times(Draft& draft, Table& race);

/// `race.course` and what belongs to it, with the road's stretches: builds the course.
void read_course(Draft& draft, Table& race, Table& road);

/// What was said of power and drag area, for settle_rider when all else is read.
struct RiderStatement {
    KnownRide ride;
    DragStatement drag;
};
RiderStatement read_rider(Draft& draft, Table& rider);
/// `rider.repair`, then the `repair` table.
void read_repair(Draft& draft, Table& rider, Table& repair);
/// `repair.help` and what belongs to it.
void read_help(Draft& draft, Table& repair);
/// What of the `repair` table depends on what setups carry. Needs the setups.
void read_mending(Draft& draft, Table& repair);
/// Needs the race. `preparation` but for who fits the tubes.
void read_preparation(Draft& draft, Table& preparation);
void read_weather(Draft& draft, Table& weather);
/// `road` but for its stretches.
void read_road(Draft& draft, Table& road);
void read_flats(Draft& draft, Table& flats);

/// [[correlated]]; needs every input, those of known rides settled.
void read_correlated(Draft& draft, const input::Node* list);
/// Values drawn from one file's rows must be of one kind.
void check_sample_rows(Draft& draft);

class Parts;

/// How much likelier fitting faults are by who fits: `preparation.fitting`.
double read_fitting_ratio(Draft& draft, Table& preparation);

/// Needs the setups; vetoes those below a stated `minimum_kit`.
void read_decision(Draft& draft, Table& decision, const Parts& parts);

}  // namespace flattail::scenario
