// What to pump, when and to how much, and which pressure is best. Pressures are gauge
// pressures in pascals throughout.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/publish.h"
#include "flattail/scenario.h"
#include "flattail/study.h"

namespace flattail {

/// A pressure as it will typically be; nine days in ten lie between the other two, gauge,
/// weather and leak together.
struct LikelyPressure {
    double typical_pa = 0.0;
    double low_pa = 0.0;
    double high_pa = 0.0;
};

/// A pressure to pump to.
struct PumpFigure {
    double gauge_pa = 0.0;
    bool held_down = false;  // the wanted pressure would pass a limit: this is the most
    bool held_up = false;    // less would pass under the tyre's least: this is the least
};

/// A bound on the pressure and whose it is: "the rim's limit".
struct PressureBound {
    double gauge_pa = 0.0;
    std::string whose;
};

struct WheelPump {
    std::string wheel;  // "front" or "rear"
    std::string tyre, inner;
    double width_m = 0.0;
    double stated_pa = 0.0;              // as the scenario has it
    double wanted_pa = 0.0;              // at the start
    LikelyPressure at_start, at_finish;  // of the stated plan
    std::vector<double> on_the_way_pa;   // typical, at PumpPlan::times_s
    std::optional<PressureBound> most;   // the lower of tyre's and rim's
    std::optional<PressureBound> least;  // the maker's
    PressureBound pinch;      // below it pinch flats come three times as often as usual
    double hottest_pa = 0.0;  // of the stated plan at the hottest moment
    // Nothing below while a limit is not stated.
    std::vector<PumpFigure> dry, wet;  // at PumpPlan::temperatures_k
    std::optional<PumpFigure> evening;
    std::optional<double> cartridge_pa;  // what one gives in this tyre
};

struct SetupPump {
    std::string name;
    bool vetoed = false;
    std::vector<std::string> missing;  // limits to add, as they are written
    std::array<WheelPump, 2> wheels;
    double cartridge_kg = 0.0;  // 0: none carried
};

/// When and how the tyres are pumped, and what to pump.
struct PumpPlan {
    std::string race_name, rider_name, date;
    bool invented = false;
    bool time_assumed = false;  // nobody said when the tyres are pumped
    double pump_clock_s = 0.0;  // local; below 0 on the day before
    double start_clock_s = 0.0;
    double finish_clock_s = 0.0;  // of a typical ride without flats
    double pump_k = 0.0, start_k = 0.0, hottest_k = 0.0;
    std::vector<double> temperatures_k;  // columns of the table
    double evening_clock_s = 0.0;        // below 0: the day before
    double evening_k = 0.0;
    double own_gauge_pa = 0.0, strangers_gauge_pa = 0.0;  // 9 readings in 10 within
    double wet_less_pa = 0.0;                    // on a wet road, against the dry figure
    double sun_low_pa = 0.0, sun_high_pa = 0.0;  // what a bicycle in the sun reads more
    std::vector<double> times_s;                 // from pumping to finish, the start at 0
    std::vector<SetupPump> setups;
};

/// Follows every setup's tyres from the pump to the finish and works out what to pump.
/// Errors: InvalidInput as run_study
/// Source:  METHOD 16.1 to 11.4
PumpPlan plan_pumping(const Scenario& scenario, const StudyOptions& options = {});

/// The plan on one terminal page; pump.csv.
std::string write_pump_page(const PumpPlan& plan, const PageOptions& options = {});
std::string write_pump_csv(const PumpPlan& plan);

/// One pressure tried on one wheel: judged time against the stated pressures, same days.
struct PressureTrial {
    double gauge_pa = 0.0;
    Figure against_stated_s;
    double flats_per_race = 0.0;
    bool in_flat_region = false;  // within 5 s, or one computing error, of the best
};

struct WheelPressure {
    std::string wheel;
    double stated_pa = 0.0;
    double best_pa = 0.0;
    double flat_from_pa = 0.0, flat_to_pa = 0.0;  // the flat region
    double gain_s = 0.0;  // of the best against the stated pressure; minus is faster
    PressureBound lowest, highest;      // what bounds the search
    std::vector<PressureTrial> trials;  // by rising pressure
};

struct SetupPressure {
    std::string name;
    std::vector<std::string> missing;  // limits to add; then there are no trials
    std::array<WheelPressure, 2> wheels;
};

/// Rides every setup at pressures around its own, front first, then rear with the best
/// front, all on the same days.
/// Errors: InvalidInput as run_study
/// Source:  METHOD 16.5
std::vector<SetupPressure> find_best_pressures(const Scenario& scenario,
                                               const StudyOptions& options = {});

std::string write_pressure_page(const std::vector<SetupPressure>& setups,
                                const PageOptions& options = {});
std::string write_pressure_csv(const std::vector<SetupPressure>& setups);

/// Writes pump.csv, and pressure.csv where there are trials.
/// Errors: as write_tables.
void write_pump_tables(const PumpPlan& plan, const std::vector<SetupPressure>& best,
                       const std::string& directory);

}  // namespace flattail
