#include "study/listing/day_table.h"

#include <limits>

#include "study/listing/endings.h"

namespace flattail::study {

namespace {

DayRide list_ride(const outcome::Outcomes& outcomes, std::size_t setup, std::size_t day) {
    const outcome::Tally& tally = outcomes.tallies(setup)[day];
    DayRide ride;
    ride.finish_s = tally.ending == ride::Ending::kFinished
                        ? outcomes.times(setup)[day]
                        : std::numeric_limits<double>::infinity();
    ride.lost_s = static_cast<double>(outcomes.lost(setup)[day]);
    ride.flats = tally.flats;
    ride.front_flats = tally.front_flats();
    ride.flats_at_speed = tally.at_speed();
    ride.ending = name_ending(tally.ending);
    return ride;
}

}  // namespace

DayTable list_days(const outcome::Outcomes& outcomes) {
    DayTable table;
    table.weight.assign(outcomes.weights().begin(), outcomes.weights().end());
    table.group.assign(outcomes.groups().begin(), outcomes.groups().end());
    table.rides.resize(outcomes.setups());
    for (std::size_t s = 0; s < outcomes.setups(); ++s) {
        table.rides[s].reserve(outcomes.days());
        for (std::size_t day = 0; day < outcomes.days(); ++day) {
            table.rides[s].push_back(list_ride(outcomes, s, day));
        }
    }
    return table;
}

}  // namespace flattail::study
