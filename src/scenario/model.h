// The validated scenario: one rider, one course, one day, several setups. SI throughout.
// Everything uncertain is an entry of `inputs`; other fields refer to it by InputId.
#pragma once

#include <array>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "course/course.h"
#include "flattail/scenario.h"
#include "flattail/uncertain.h"
#include "physics/drag/yaw_drag.h"
#include "physics/permeation.h"
#include "scenario/carried_kit.h"

namespace flattail::scenario {

constexpr int kWheels = 2;    // front, rear
constexpr int kSurfaces = 4;  // smooth, ordinary, coarse, cobbles
enum class WheelPosition { kFront = 0, kRear = 1 };

/// Standing: from rest, as a race starts. Rolling: already at the speed of the first
/// metres.
enum class StartKind { kStanding, kRolling };
/// Steady: the same power everywhere. Terrain: more uphill and into the wind, less
/// downhill.
enum class Pacing { kSteady, kTerrain };
/// Whether braking to a stop and getting under way again cost time (off only for checks
/// against closed forms).
enum class StopCost { kCounted, kNotCounted };

struct Goal {
    double time_s = 0.0;
    std::string text;  // as the user wrote it
};

/// A time and a place at which a rider must have passed; the finish when `at_m` is
/// infinite.
struct Cutoff {
    double within_s = std::numeric_limits<double>::infinity();  // after the start
    double clock_s = std::numeric_limits<double>::infinity();   // local, after midnight
    double at_m = std::numeric_limits<double>::infinity();
    std::string text;  // "km 45 by 11:10"
    bool is_at_finish() const { return at_m > 1e9; }
    bool is_by_clock() const { return clock_s < 1e9; }
};
constexpr std::size_t kMostCutoffs = 12;

struct Race {
    std::string name;
    std::string date;                   // "2026-06-14", or empty
    double start_clock_s = 9 * 3600.0;  // local, after midnight, on a typical day
    // Where the start of the ride is the sum of the wave's clock, swim and transition;
    // unset where it is stated.
    double wave_clock_s = 0.0;
    InputId swim_s, transition_s;
    std::vector<Goal> goals;         // the first one leads
    std::vector<Cutoff> cutoffs;     // by rising place, those at the finish last
    std::optional<double> cutoff_s;  // the tightest at the finish, on a typical day
    StartKind start = StartKind::kStanding;
    double speed_limit_m_s = std::numeric_limits<double>::infinity();
    bool invented = false;  // printed on every page when set
};

struct Rider {
    std::string name;
    InputId mass_kg, bicycle_kg, clothing_kg;
    InputId power_w;         // mean over the ride at the pedals, before the day's fade
    InputId bad_day_chance;  // probability of a bad day
    InputId bad_day_loss;    // share of power lost on such a day
    InputId fade_per_h;      // share of power lost per hour
    double fade_from_s = 3600.0;
    InputId drag_area_m2;
    std::vector<physics::YawRow> drag_by_yaw;  // by rising yaw from 0; empty: isotropic
    double drivetrain_efficiency = 0.976;
    double wheel_inertia_kg =
        1.45;  // I / r^2 of both wheels: adds to the mass that is accelerated
    Pacing pacing = Pacing::kTerrain;
    double power_variation_sd = 0.02;  // slow variation along the course, share of power
    double power_variation_length_m = 5000.0;
    double launch_force_n = 250.0;  // most force at the rear wheel when starting
};

/// One row of the forecast; between rows values change linearly with the clock.
struct ForecastRow {
    double clock_s = 0.0;
    double temperature_k = 288.15;
    double wind_m_s = 0.0;  // at 10 m
    double from_rad = 0.0;  // clockwise from north
    double rain_chance = 0.0;
    std::optional<double> gust_ratio;  // gust / mean wind; unset: that of the weather
};

struct Weather {
    std::vector<ForecastRow> rows;  // at least one, by rising clock
    InputId wind_factor;            // forecast error: factor on speed
    InputId direction_error_rad;
    InputId temperature_error_k;
    InputId rain;  // uniform in (0, 1): wet where it lies below the row's chance
    double gust_ratio = 1.5;        // gust / mean wind, the largest of all rows
    double gust_length_m = 500.0;   // how far one gust reaches along the road
    double pressure_pa = 101325.0;  // at the start's altitude
    double humidity = 0.6;
};

struct Road {
    std::array<InputId, kSurfaces>
        crr;                // race tyre + butyl at its reference pressure, by surface
    InputId shelter_ratio;  // factor on every stretch's rider wind / 10 m wind
    InputId wet_crr_ratio;  // rolling on a wet road / on a dry one
    double wet_cap_ratio = 0.8;  // corner and descent speeds on a wet road / on a dry one
};

struct FlatRates {
    InputId training_per_m;  // race tyre + butyl in training, both wheels together
    InputId race_ratio;      // race road / training road
    InputId day_factor;      // clumping: mean 1, differs each day
    InputId wet_ratio;
    InputId rear_share;
    InputId pinch_share;  // share of the training rate that is pinched tubes, at
                          // reference pressure
    double rough_pinch_ratio =
        3.0;             // coarse and cobbles: impacts per metre / ordinary road
    InputId slow_share;  // of cut tubes that lose their air slowly
    double at_speed_m_s = 40.0 / 3.6;  // flats above this speed are counted apart
};

enum class InnerKind { kTube, kSealant };
enum class InnerMaterial { kButyl, kLatex, kPlastic, kNone };

/// The tested product that a part stands for: its file of tests, and its row there.
struct TestedAs {
    int belief = -1;  // -1: none
    int product = -1;
};

struct Tyre {
    std::string name;
    double width_m = 0.028;
    double reference_pa = 5e5;  // gauge pressure at which its Crr holds, after its width
    InputId crr_change;         // against the race tyre
    InputId cut_ratio;          // against the race tyre, wear included
    std::optional<double> most_pa;
    std::optional<double> least_pa;
    TestedAs tested_as;
};

/// How fast one kind of inner loses its gases, as seen in a tube filled with air and in
/// one filled with carbon dioxide. The losses are not exactly known; see scenario/leak.h.
struct Leak {
    physics::WallLeak wall;     // at the middle of what is known of both losses
    physics::ObservedLoss air;  // what was seen; `lost_pa` is the middle
    InputId air_loss_pa;        // unset: exactly as `air` says
    physics::ObservedLoss carbon_dioxide;
    InputId carbon_dioxide_loss_pa;  // unset: that gas keeps its ratio to air
};

struct Inner {
    std::string name;
    InnerKind kind = InnerKind::kTube;
    InnerMaterial material = InnerMaterial::kButyl;  // what it melts, leaks or tears like
    InputId crr_change;                              // against butyl
    InputId cut_ratio;                               // against butyl
    InputId fitting_fault;    // chance per wheel and race that a fitting fault lets go
    InputId sealant_holds;    // chance that sealant closes a cut (sealant only)
    InputId sealant_loss_pa;  // pressure lost before it closes
    Leak leak;                // default: tight
    TestedAs tested_as;
};

struct Wheel {
    int tyre = 0;                // index into Model::tyres
    int inner = 0;               // index into Model::inners
    double gauge_pa = 0.0;       // as stated; see Preparation for when it holds
    InputId wear_ratio;          // cuts of a worn tyre / of a new one; may be unset
    double fitting_ratio = 1.0;  // fitting faults left after the km ridden since fitting
    std::optional<double> ridden_m;  // since fitting, when stated
    double load_share = 0.5;
    double rim_depth_m = 0.0;  // 0: not stated
    bool disc = false;        // a closed wheel: its valve is reached with an adaptor only
    bool spare_fits = true;   // the kit's tubes suit this rim
    bool air_reaches = true;  // the kit's inflators reach this valve
};

enum class RimKind { kHooked, kHookless };
enum class Brake { kUnknown, kRim, kDisc };

/// The rims of a setup as far as they are stated.
struct Rim {
    RimKind kind = RimKind::kHooked;
    Brake brake = Brake::kUnknown;
    std::optional<double> most_pa;
    std::optional<double> inner_width_m;
    std::optional<double> depth_m;
};

struct Setup {
    std::string name;
    std::array<Wheel, kWheels> wheels;
    Rim rim;
    double added_mass_kg = 0.0;  // against the bicycle as stated
    InputId rolling_saved_crr;   // stated gain (positive = faster), as a change of Crr;
                                 // may be unset
    Kit kit;
    std::optional<double> price;  // of fitting it, in the user's money; moves no result
    std::vector<std::string> cautions;  // shown; each names its rule
    bool vetoed = false;                // shown, never chosen

    /// Mass on the bicycle as stated: what the setup adds, and the kit.
    double carried_kg() const { return added_mass_kg + kit.mass_kg; }
};

/// Who may help. A car that follows brings a wheel and is the first choice.
enum class Help { kNone, kOfficials, kCar };

struct Repair {
    InputId median_s;    // a tube changed by this rider, front wheel
    InputId day_factor;  // luck of one repair (lognormal factor)
    double rear_extra_s = 60.0;
    double tubeless_ratio = 1.3;    // tubeless opened up for a tube
    double bare_hands_ratio = 1.2;  // without levers
    InputId first_try_fails;
    InputId tyre_destroyed;  // chance that a flat ends the tyre
    Help help = Help::kNone;
    InputId help_reached;  // officials: chance of help at all
    InputId help_wait_s;   // officials: wait; a following car: the wheel change
    bool can_repair = true;
    double notice_s = 5.0;  // from the flat to the brakes
    // What kit may do besides a tube; unset where no setup carries it.
    InputId plug_holds;
    InputId patch_holds;
    InputId can_closes;
    InputId boot_saves;  // share of destroyed tyres that a boot makes rideable
    double plug_s = 120.0;
    double patch_s = 360.0;
    double can_s = 120.0;
    double boot_s = 60.0;
    double top_up_s = 90.0;      // stopping to fill a tube that loses air slowly
    double mini_pump_s = 180.0;  // filling by hand, beyond what a cartridge takes
    double frame_pump_s = 90.0;
    double mini_pump_pa = 4.1e5;  // gauge, what a small pump reaches (60 psi)
    double noticed_pa = 2.0e5;    // gauge, where a soft tyre is felt (29 psi)
};

enum class FillGas { kAir, kCarbonDioxide };

/// How the wheels were made ready. Without a time of pumping the stated pressures hold at
/// the start; with one they are what the gauge showed then.
struct Preparation {
    InputId
        gauge_error_pa;     // true minus read pressure, the same for every wheel that day
    double before_s = 0.0;  // from pumping to the start; 0: pressures hold at the start
    std::optional<double> pumped_at_k;  // air and wheels then; nothing: as forecast
    FillGas gas = FillGas::kAir;
};

/// How setups are compared.
enum class RuleKind { kMean, kPercentile, kWorstDays, kGoal, kFinish };

struct Decision {
    RuleKind rule = RuleKind::kMean;
    double percentile = 0.5;
    int against = 0;  // index of the setup that others are compared with
    double matters_s = 15.0;
    double no_finish_costs_s = 3600.0;
    double lost_by_flats_s = 300.0;  // "lose 5 minutes or more"
    // Most chance of a flat at speed, either wheel and front: above, never chosen.
    std::optional<double> flats_at_speed_most;
    std::optional<double> front_at_speed_most;
    std::optional<Kit> least_kit;  // who carries less is not recommended
};

/// Inputs whose draws go together: a Gaussian copula over the scores of one layer. No
/// input is in two.
struct Correlation {
    std::vector<InputId> inputs;  // at most kMostTogether
    Layer layer = Layer::kKnowledge;
    std::vector<double> matrix;  // row by row
};
constexpr std::size_t kMostTogether = 16;

struct Model {
    std::string file;
    Race race;
    Rider rider;
    Weather weather;
    Road road;
    FlatRates flats;
    Repair repair;
    Preparation preparation;
    StopCost stop_cost = StopCost::kCounted;
    std::vector<Tyre> tyres;
    std::vector<Inner> inners;
    std::vector<Setup> setups;
    Decision decision;
    std::shared_ptr<const course::Course> course;
    std::vector<Input> inputs;
    std::vector<Correlation> correlations;
    std::vector<UsedValue> settings;  // certain values in use that nobody stated
    std::vector<Problem> warnings;
    std::string fingerprint;  // of everything that can move a result

    const Input& input(InputId id) const {
        return inputs[static_cast<std::size_t>(id.index)];
    }
};

}  // namespace flattail::scenario
