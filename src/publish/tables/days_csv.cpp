// days.csv: one row for each race day and setup.
#include "publish/tables/csv_tables.h"
#include "publish/tables/csv_text.h"

namespace flattail::publish {

std::string write_days_csv(const Findings& findings) {
    const DayTable& days = findings.days;
    if (days.rides.empty()) return "";
    CsvText table({"day", "setup", "weight", "group", "finish_s", "ending", "flats",
                   "front_flats", "flats_at_speed", "lost_to_flats_s"});
    for (std::size_t day = 0; day < days.weight.size(); ++day) {
        for (std::size_t s = 0; s < days.rides.size(); ++s) {
            const DayRide& ride = days.rides[s][day];
            table.add_row({std::to_string(day), findings.setups[s].name,
                           csv_number(days.weight[day]), std::to_string(days.group[day]),
                           csv_time(ride.finish_s), ride.ending,
                           std::to_string(ride.flats), std::to_string(ride.front_flats),
                           std::to_string(ride.flats_at_speed), csv_number(ride.lost_s)});
        }
    }
    return table.text();
}

}  // namespace flattail::publish
