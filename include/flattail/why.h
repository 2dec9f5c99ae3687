// Why the answer is what it is: what would turn it, what moves it, what knowing more is
// worth, and what each setup buys on ordinary and on bad days.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/publish.h"
#include "flattail/scenario.h"
#include "flattail/study.h"

namespace flattail {

/// What is moved to see whether the answer turns.
enum class BreakEvenQuestion {
    kFlatRate,    // flats of the setup for each of the setup compared with
    kRepairTime,  // to change a tube, min
    kPower,       // W
    kPressure,    // true minus intended pressure, psi
    kRollingGain  // of the setup over the one compared with, W per pair
};

/// The difference (setup minus the one compared with) with the moved value at `at`.
struct ScanRow {
    double at = 0.0;
    Figure difference;  // judged seconds, or a chance where the rule is one
};

/// A place where the better of the two changes.
struct BreakEvenRow {
    double at = 0.0;
    Interval interval;  // 19 in 20; ends at the end of the range where that is open
    bool is_open_below = false;
    bool is_open_above = false;
    bool better_above = false;  // the setup is the better one above
};

/// One setup and one question.
struct BreakEvenFindings {
    BreakEvenQuestion question = BreakEvenQuestion::kFlatRate;
    int setup = 0;
    double now = 0.0;  // as the scenario has it
    Interval range;    // of reason
    std::vector<ScanRow> scan;
    std::vector<BreakEvenRow> changes;  // none: never within reason
    std::string not_asked;              // why there is no scan; empty when there is one
};

/// What one unknown fact does to a difference, everything else averaged.
struct FactFindings {
    std::string name;   // "inner.latex.cuts"
    std::string label;  // "latex: cuts / those of butyl"
    std::string unit;   // of the two values below
    double low = 0.0;   // its 10th percentile
    double high = 0.0;  // its 90th
    Figure at_low_s;    // mean difference there
    Figure at_high_s;
    Figure first,
        total;  // shares of the variance from what is not known: alone, and with
                // all it interacts with
};

/// The same shares for facts that belong together: "rolling", "flats", ...
struct GroupFindings {
    std::string name;
    Figure first, total;
};

/// What moves the difference of one setup to the one compared with.
struct MovesFindings {
    int setup = 0;
    Figure not_known_s;   // sd of the expected difference over what is not known
    Figure luck_s;        // sd of one day about it
    Figure other_better;  // share of what could be under which the other one is better
    std::vector<FactFindings> facts;  // largest first
    std::vector<GroupFindings> groups;
    double interaction = 0.0;  // share of the variance that belongs to no fact alone
};

enum class Learning { kEverything, kOneFact, kRiding, kTest };

/// What learning something before choosing is worth on average.
struct InformationRow {
    Learning learning = Learning::kEverything;
    std::string name;    // of the fact; empty for everything
    std::string label;   // in words
    double share = 1.0;  // of the fact's variance that is learnt
    Figure worth;        // seconds of judged time, or a chance
};

struct InformationFindings {
    std::string why_not;  // why there are no rows; empty when there are
    bool in_chance = false;
    std::vector<InformationRow> rows;
};

/// One setup on ordinary and on bad days, and what it costs.
struct TradeOffRow {
    int setup = 0;
    Figure typical_s;    // finish on the typical day
    Figure bad_days_s;   // average of the worst 1 day in 20
    int beaten_by = -1;  // a setup that is better on both counts, beyond computing error
    std::optional<double> price;        // against the setup compared with
    Figure saved_s;                     // judged time saved on average
    std::optional<double> price_per_s;  // nothing where no time is surely saved
};

enum class Varied { kNothing, kPressure, kKit };

/// The advised setup done a little otherwise.
struct VariantRow {
    Varied varied = Varied::kNothing;
    std::string words;  // "5 psi (0.3 bar) less", "without boot"; "as it is"
    Figure typical_s;   // as in TradeOffRow
    Figure bad_days_s;
    // Against the setup as it is, on the same race days.
    Figure typical_change_s;
    Figure bad_days_change_s;
    Figure average_change_s;  // of the judged time
    std::string beaten_by;    // what is better on both counts, beyond computing error
    std::string ruled_out;    // the rule that it breaks: never recommended
};

/// The advised setup with other pressures and other kits.
struct VariantFindings {
    int setup = -1;                // -1: nothing is advised
    std::int64_t races = 0;        // days ridden again
    bool has_limits = true;        // of tyre and rim; without them no pressure is tried
    std::vector<VariantRow> rows;  // the first one as it is
};

/// Flats that fitting the tubes earlier would spare the choice.
struct FittingFindings {
    int setup = -1;    // -1: nothing to gain
    Figure flats_now;  // per race
    Figure spared;     // of them, by 50 km more on the tubes
};

struct WhyFindings {
    Findings race;
    bool in_chance = false;  // breaks even in chances of the rule, not in judged time
    std::vector<BreakEvenFindings> break_even;
    std::vector<MovesFindings> moves;
    InformationFindings information;
    std::vector<TradeOffRow> trade_off;
    VariantFindings variants;
    FittingFindings fitting;
    bool stopped_early = false;
};

/// Runs the study and asks these questions of it. Break-evens ride the first few thousand
/// days again for each value on the way.
/// Errors:   as run_study
/// Accuracy: the same bits for any thread count and instruction set
/// Source:   METHOD 10.40 to 10.49
WhyFindings explain(const Scenario& scenario, const StudyOptions& options);

/// The study, and of the questions only which flat rate would turn the choice: what a
/// brief needs, at two to three times the work of the study.
/// Errors:   as run_study
/// Accuracy: as explain
/// Source:   METHOD 10.40, 10.41
WhyFindings explain_briefly(const Scenario& scenario, const StudyOptions& options);

/// What follows for the rider, in sentences that each stand on their own.
struct WhySentences {
    std::vector<std::string> flips;    // what would turn the choice
    std::vector<std::string> price;    // what the choice costs in flats, days and money
    std::vector<std::string> changes;  // which unknown fact would change the advice
};

WhySentences tell_why(const WhyFindings& why);

/// `flips` for a rider's page: without computing errors and what never turns the choice.
std::vector<std::string> tell_turns(const WhyFindings& why);

/// The page of `flattail why`.
std::string write_why_page(const WhyFindings& why, const PageOptions& options = {});

/// Writes break-even.csv, sensitivity.csv, information.csv and trade-off.csv.
/// Errors: as write_tables
void write_why_tables(const WhyFindings& why, const std::string& directory);

}  // namespace flattail
