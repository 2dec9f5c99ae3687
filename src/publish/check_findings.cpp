#include "publish/check_findings.h"

#include <fmt/format.h>

#include <cmath>
#include <string>

#include "flattail/problem.h"

namespace flattail::publish {

namespace {

// Says whose figures are looked at, and fails with the name of a bad one.
class FigureCheck {
  public:
    explicit FigureCheck(std::string whose) : whose_(std::move(whose)) {}

    void finite(const char* figure, double value) const {
        if (!std::isfinite(value)) fail(figure, value);
    }
    void finite(const char* figure, const Figure& value) const {
        finite(figure, value.value);
        finite(figure, value.standard_error);
    }
    void finite(const char* figure, const Interval& range) const {
        finite(figure, range.low);
        finite(figure, range.high);
    }
    // A finish time: infinite when there is no finish.
    void time(const char* figure, double value) const {
        if (std::isnan(value) || value < 0.0) fail(figure, value);
    }
    void time(const char* figure, const Interval& range) const {
        time(figure, range.low);
        time(figure, range.high);
    }
    // Limits that few days leave open are infinite.
    void limits(const char* figure, const Interval& range) const {
        if (std::isnan(range.low)) fail(figure, range.low);
        if (std::isnan(range.high)) fail(figure, range.high);
    }
    void holds(bool rule, const char* words) const {
        if (!rule) throw OurMistake(whose_ + ": " + words);
    }

  private:
    [[noreturn]] void fail(const char* figure, double value) const {
        throw OurMistake(fmt::format("{}: {} is {}", whose_, figure, value));
    }
    std::string whose_;
};

void check_chances(const FigureCheck& check, const SetupFindings& setup) {
    for (const Figure& goal : setup.goals) check.finite("chance of a goal", goal);
    check.finite("chance of a flat", setup.flat);
    check.finite("chance of two flats", setup.two_flats);
    check.finite("chance of a front flat", setup.front_flat);
    check.finite("flats per race", setup.flats_per_race);
    for (const FlatCauseRow& row : setup.flats_by_cause) {
        check.finite("flats of a cause", row.per_race);
    }
    check.finite("chance of a flat at speed", setup.flat_at_speed);
    check.finite("chance of a front flat at speed", setup.front_flat_at_speed);
    check.finite("chance of losing long", setup.lose_long);
    check.finite("chance of no finish", setup.no_finish);
    check.finite("chance of missing the cutoff", setup.over_cutoff);
    for (const CauseRow& row : setup.no_finish_causes) {
        check.finite("chance of a cause", row.chance);
    }
}

void check_setup(const SetupFindings& setup, std::size_t goals) {
    const FigureCheck check("findings of setup '" + setup.name + "'");
    check.holds(setup.goals.size() == goals, "as many goal chances as goals");
    for (const PercentileRow& row : setup.percentiles) {
        check.finite("percent", row.percent);
        check.time("percentile", row.time_s);
        check.limits("interval of a percentile", row.interval_s);
    }
    check.time("typical day", setup.typical_s);
    check.time("9 days in 10", setup.nine_in_ten_s);
    check.finite("mean judged time", setup.mean_judged_s);
    check.finite("spread of judged times", setup.sd_judged_s);
    for (const WorstDaysRow& row : setup.worst_days) {
        check.finite("share of worst days", row.share);
        check.finite("average of the worst days", row.mean_s);
    }
    for (const double time_s : setup.quantiles_s) check.time("quantile", time_s);
    check_chances(check, setup);
}

void check_pair(const PairFindings& pair, const Findings& findings) {
    const FigureCheck check(fmt::format("findings of pair {}", pair.setup));
    check.holds(
        pair.setup >= 0 && static_cast<std::size_t>(pair.setup) < findings.setups.size(),
        "the setup of a pair is one of the setups");
    check.finite("mean difference", pair.mean_s);
    check.finite("median difference", pair.median_s);
    for (const PercentileRow& row : pair.percentiles) {
        check.finite("percent", row.percent);
        check.finite("percentile", row.time_s);
        check.limits("interval of a percentile", row.interval_s);
    }
    check.finite("chance of being faster", pair.faster);
    check.finite("chance of a tie", pair.ties);
    check.finite("chance that both finish", pair.both_finish);
    check.finite("chance that one finishes", pair.only_setup_finishes);
    check.finite("chance that the other finishes", pair.only_against_finishes);
    check.finite("chance that neither finishes", pair.neither_finishes);
    check.finite("mean difference, independent flats", pair.mean_independent_s);
    check.finite("chance of being faster, independent flats", pair.faster_independent);
    check.finite("range for what is not known", pair.could_be_s);
    check.finite("spread over what is not known", pair.knowledge_sd_s);
    check.finite("spread of one day", pair.luck_sd_s);
    if (!pair.parts_known) return;
    for (const Figure* part :
         {&pair.rolling_s, &pair.air_lost_s, &pair.mass_s, &pair.flats_s}) {
        check.finite("part of the difference", *part);
    }
}

void check_condition(const ConditionFindings& condition, std::size_t setups) {
    const FigureCheck check(condition.name + " road");
    check.finite("share of days", condition.share);
    check.holds(condition.setups.size() == setups, "a row for each setup");
    for (const ConditionRow& row : condition.setups) {
        check.time("typical finish", row.typical_s);
        check.finite("chance of a flat", row.flat);
        check.finite("difference", row.against_s);
    }
}

void check_kit_row(const KitRow& row, int setups) {
    const FigureCheck check("kit row '" + row.item + "'");
    check.holds(row.setup >= 0 && row.setup < setups,
                "the setup of a kit row is one of the setups");
    check.finite("weight", row.weighs_kg);
    check.finite("finishes gained", row.finishes);
    check.finite("time saved", row.saves_s);
    check.finite("time its weight costs", row.costs_s);
    check.finite("time saved less that", row.net_s);
}

void check_histogram(const HistogramFindings& histogram, std::size_t setups) {
    const FigureCheck check("histogram");
    for (const double edge_s : histogram.edges_s) check.finite("edge", edge_s);
    if (histogram.edges_s.empty()) return;
    check.holds(histogram.shares.size() == setups, "as many rows of shares as setups");
    const bool has_errors = !histogram.standard_errors.empty();
    check.holds(!has_errors || histogram.standard_errors.size() == setups,
                "as many rows of standard errors as setups");
    for (std::size_t setup = 0; setup < setups; ++setup) {
        const std::vector<double>& shares = histogram.shares[setup];
        check.holds(shares.size() == histogram.edges_s.size() + 1,
                    "one more share than edges");
        for (const double share : shares) check.finite("share", share);
        if (!has_errors) continue;
        check.holds(histogram.standard_errors[setup].size() == shares.size(),
                    "as many standard errors as shares");
        for (const double error : histogram.standard_errors[setup]) {
            check.finite("standard error of a share", error);
        }
    }
}

}  // namespace

void check_findings(const Findings& findings) {
    const FigureCheck check("findings");
    const auto setups = static_cast<int>(findings.setups.size());
    check.holds(setups > 0, "at least one setup");
    check.holds(findings.against >= 0 && findings.against < setups,
                "the setup compared against is one of the setups");
    check.holds(findings.verdict.choice >= -1 && findings.verdict.choice < setups,
                "the choice is one of the setups");
    check.finite("share agreeing with the choice", findings.verdict.share_agreeing);
    for (const double goal_s : findings.goals_s) check.finite("goal", goal_s);
    check.finite("cutoff", findings.cutoff_s);
    check.finite("judged time of no finish", findings.judged_no_finish_s);
    check.finite("effective race days", findings.facts.effective_races);
    check.finite("accuracy", findings.accuracy.worst_ratio);
    check.finite("share settled", findings.accuracy.settled_share);
    for (const SetupFindings& setup : findings.setups) {
        check_setup(setup, findings.goals_s.size());
    }
    for (const PairFindings& pair : findings.pairs) check_pair(pair, findings);
    for (const ConditionFindings& condition : findings.conditions) {
        check_condition(condition, findings.setups.size());
    }
    for (const KitRow& row : findings.kit) check_kit_row(row, setups);
    check_histogram(findings.histogram, findings.setups.size());
}

}  // namespace flattail::publish
