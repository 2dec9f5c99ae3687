// What a study found, ready to be printed. Two readings are named throughout:
// *finish time*: a day without a finish is later than every time (infinite);
// *judged time*: such a day counts as one fixed time, the same for all setups.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace flattail {

/// An estimate and its computing error (one standard error).
struct Figure {
    double value = 0.0;
    double standard_error = 0.0;
    double skewness = 0.0;  // of that error; 0 where it is not followed
    double freedom = 0.0;   // degrees of freedom of that error; 0: as skewness
};

struct Interval {
    double low = 0.0;
    double high = 0.0;
};

/// 95 % limits of a chance, further away on the side to which its error leans, within 0
/// and 1. `effective_races` (StudyFacts) says how high a chance can be of what was never
/// seen.
/// Source:  METHOD 10.11
Interval find_chance_limits(const Figure& chance, double effective_races);

/// A percentile of finish time with its 95 % interval; infinite where no finish lies
/// there. A limit that so few days leave open is infinite too.
struct PercentileRow {
    double percent = 50.0;
    double time_s = 0.0;
    Interval interval_s;
};

/// Chance of ending without a finish for one reason.
struct CauseRow {
    std::string cause;  // "no spare left", "repair failed", ...
    Figure chance;
};

/// Flats per race of one wheel and cause.
struct FlatCauseRow {
    std::string wheel;  // "front", "rear"
    std::string cause;  // "cut", "pinch", "fitting"
    Figure per_race;
};

/// Average judged time over the worst share of days.
struct WorstDaysRow {
    double share = 0.05;
    Figure mean_s;
};

struct SetupFindings {
    std::string name;
    bool vetoed = false;
    std::vector<std::string> cautions;
    std::vector<PercentileRow> percentiles;  // 0.1 to 99.9
    double typical_s = 0.0;                  // median finish time
    Interval nine_in_ten_s;                  // 5th to 95th percentile
    std::vector<Figure> goals;               // chance of each goal
    Figure mean_judged_s;
    Figure sd_judged_s;
    std::vector<WorstDaysRow> worst_days;  // worst 1 in 10, 20, 100
    Figure flat;                           // chance of at least one
    Figure two_flats;
    Figure front_flat;
    Figure flats_per_race;
    std::vector<FlatCauseRow> flats_by_cause;  // front and rear, cut, pinch, fitting
    Figure flat_at_speed;
    Figure front_flat_at_speed;
    Figure lose_long;  // chance of losing `lost_by_flats_s` or more to flats, or not
                       // finishing
    Figure no_finish;
    Figure over_cutoff;  // part of no_finish
    std::vector<CauseRow> no_finish_causes;
    // What a flat costs on a day with a flat and a finish: the median, and the loss that
    // 1 such day in 10 exceeds. NaN when no such day was drawn.
    double flat_costs_s = 0.0;
    double flat_costs_often_s = 0.0;
    double flat_costs_se_s = 0.0;  // computing errors of the two
    double flat_costs_often_se_s = 0.0;
    std::vector<double> quantiles_s;  // 1,000 evenly spaced, for JSON and pictures
};

/// One setup minus the setup it is compared against, on the same days.
struct PairFindings {
    int setup = 0;
    Figure mean_s;  // judged time
    std::vector<PercentileRow> percentiles;
    Figure median_s;
    Figure faster;  // chance, half the ties
    Figure ties;
    Figure both_finish, only_setup_finishes, only_against_finishes, neither_finishes;
    Figure p95_difference_s;    // difference of the two 95th percentiles; not finite
                                // where one of them is no finish
    Figure mean_independent_s;  // flats of the two setups drawn independently
    Figure faster_independent;
    bool parts_known = false;  // whether the four parts below were computed
    Figure rolling_s, air_lost_s, mass_s, flats_s;  // they sum to mean_s
    Interval could_be_s;                            // 9 in 10, over what is not known
    double knowledge_sd_s =
        0.0;                 // spread of the expected difference over what is not known
    double luck_sd_s = 0.0;  // spread of one day about its expectation
    double knowledge_sd_se_s = 0.0;
    double luck_sd_se_s = 0.0;
    Figure day_sd_s;  // spread of the difference over race days, both together
};

enum class Certainty { kFirm, kLeaning, kTossUp };

struct Verdict {
    int choice = 0;  // index of the setup; -1 when every setup is vetoed
    Certainty certainty = Certainty::kTossUp;
    // Draws of the unknown facts under which it beats the setup compared with (or stays
    // the best, when it is that setup).
    double share_agreeing = 0.0;
    double share_best = 0.0;  // draws under which it is the best of all
    int runner_up = 0;
    std::string rule;    // words that read after "by": "average time"
    std::string reason;  // one sentence without its full stop
};

/// One setup on the days of one condition.
struct ConditionRow {
    double typical_s = 0.0;  // median finish; infinite when that is no finish
    Figure flat;             // chance of at least one
    Figure against_s;        // mean judged time minus that of the setup compared against
};

/// The days that share something a rider sees on the morning: a dry or a wet road.
struct ConditionFindings {
    std::string name;  // "dry", "wet"
    Figure share;      // of all race days
    std::vector<ConditionRow> setups;
};

/// One thing of a setup's kit: carried, against the race without it; or not carried,
/// against the race with it. Every figure is what having it brings, on the same days.
struct KitRow {
    int setup = 0;
    std::string item;       // "butyl tube", "tube and cartridge"
    int carried = 0;        // how many of it the kit holds; the row is about the last one
    bool is_added = false;  // not carried: one more
    double weighs_kg = 0.0;
    Figure finishes;  // chance of finishing that it adds
    Figure saves_s;   // average judged time that it saves by mending
    Figure costs_s;   // average time that its weight costs
    Figure net_s;     // saves - costs
};

/// Race days by finish time. The first goal is one of the edges when it lies among them.
struct HistogramFindings {
    std::vector<double> edges_s;  // rising; first bin is everything before edges[0]
    std::vector<std::vector<double>>
        shares;  // [setup][bin], bins = edges + 1, last: later or none
    std::vector<std::vector<double>> standard_errors;  // of the shares
};

/// One setup on one day.
struct DayRide {
    double finish_s = 0.0;  // infinite without a finish
    double lost_s = 0.0;    // to flats
    int flats = 0;
    int front_flats = 0;
    int flats_at_speed = 0;
    std::string ending;  // "finished", "over the cutoff", ...
};

/// Every ride of a study; empty unless it was asked for.
/// Shapes: weight[day], group[day], rides[setup][day]
struct DayTable {
    std::vector<double> weight;
    std::vector<int>
        group;  // 0: drawn as it comes; 1 to 4: with 0, 1, 2, 3 or more points
    std::vector<std::vector<DayRide>> rides;
};

/// How exactly the rides were computed.
struct AccuracyCheck {
    std::int64_t rides_checked = 0;
    double worst_ratio = 0.0;    // largest |time / converged time - 1|
    double settled_share = 0.0;  // block-segments that needed the slow solver
    std::int64_t not_solved = 0;
};

struct StudyFacts {
    std::string version;
    std::string scenario_file;
    std::string race_name;
    std::string rider_name;
    std::string date;
    bool invented = false;
    double start_clock_s = 0.0;  // of a typical day
    bool start_varies = false;   // swim or transition differ from day to day
    double course_length_m = 0.0;
    double course_ascent_m = 0.0;
    double rider_mass_kg = 0.0;
    double rider_power_w = 0.0;
    std::string fingerprint;  // of the scenario
    std::string check_code;   // of scenario, seed and days together
    std::uint64_t seed = 0;
    std::int64_t races = 0;
    bool plain = false;
    bool stopped_early = false;
    double effective_races = 0.0;
    int segments = 0;
};

struct Findings {
    StudyFacts facts;
    std::vector<double> goals_s;
    double cutoff_s = 0.0;  // at the finish, on a typical day; 0: none
    std::vector<std::string>
        cutoffs;                      // each in words, when there are several or by clock
    double judged_no_finish_s = 0.0;  // what a day without a finish counts as
    std::string judged_rule;          // what that is: "typical finish of Butyl + 1 h"
    double matters_s = 15.0;
    double lost_by_flats_s = 300.0;
    int against = 0;
    std::vector<SetupFindings> setups;
    std::vector<PairFindings> pairs;  // every setup but `against`
    HistogramFindings histogram;
    std::vector<ConditionFindings> conditions;  // dry, wet; empty when only one can be
    Verdict verdict;
    AccuracyCheck accuracy;
    DayTable days;
    std::vector<KitRow> kit;            // of the choice and of the setup compared with
    std::vector<std::string> cautions;  // of the whole race
};

}  // namespace flattail
