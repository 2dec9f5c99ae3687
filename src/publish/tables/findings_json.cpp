// The findings as JSON. A key never changes its meaning; a new one may come, and what
// would break a reader raises the number of the schema.
#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "flattail/publish.h"
#include "publish/check_findings.h"

namespace flattail {

namespace {

using Json = nlohmann::ordered_json;

// What has no number is null; `null_means` in the file says why.
Json number_or_null(double value) {
    return std::isfinite(value) ? Json(value == 0.0 ? 0.0 : value) : Json(nullptr);
}

Json to_json(const Figure& figure) {
    return Json{{"value", number_or_null(figure.value)},
                {"standard_error", number_or_null(figure.standard_error)}};
}

Json to_json(const Interval& range) {
    return Json::array({number_or_null(range.low), number_or_null(range.high)});
}

// A chance and its limits, which need not stand evenly about it.
class Chances {
  public:
    explicit Chances(const Findings& findings)
        : effective_races_(findings.facts.effective_races) {}

    Json operator()(const Figure& chance) const {
        Json json = to_json(chance);
        json["interval_95"] = to_json(find_chance_limits(chance, effective_races_));
        return json;
    }

  private:
    double effective_races_;
};

Json to_json(const std::vector<double>& values) {
    Json list = Json::array();
    for (const double value : values) list.push_back(number_or_null(value));
    return list;
}

Json to_json(const std::vector<std::vector<double>>& rows) {
    Json list = Json::array();
    for (const std::vector<double>& row : rows) list.push_back(to_json(row));
    return list;
}

Json to_json(const std::vector<PercentileRow>& rows) {
    Json list = Json::array();
    for (const PercentileRow& row : rows) {
        list.push_back(Json{{"percent", row.percent},
                            {"time_s", number_or_null(row.time_s)},
                            {"interval_95_s", to_json(row.interval_s)}});
    }
    return list;
}

Json to_json(const std::vector<ConditionFindings>& conditions) {
    Json list = Json::array();
    for (const ConditionFindings& condition : conditions) {
        Json setups = Json::array();
        for (const ConditionRow& row : condition.setups) {
            setups.push_back(Json{{"typical_s", number_or_null(row.typical_s)},
                                  {"flat", to_json(row.flat)},
                                  {"against_s", to_json(row.against_s)}});
        }
        list.push_back(Json{{"road", condition.name},
                            {"share", to_json(condition.share)},
                            {"setups", std::move(setups)}});
    }
    return list;
}

Json to_json(const StudyFacts& facts) {
    return Json{{"version", facts.version},
                {"scenario_file", facts.scenario_file},
                {"race", facts.race_name},
                {"rider", facts.rider_name},
                {"date", facts.date},
                {"invented", facts.invented},
                {"start_clock_s", facts.start_clock_s},
                {"start_varies", facts.start_varies},
                {"course_length_m", facts.course_length_m},
                {"course_ascent_m", facts.course_ascent_m},
                {"rider_mass_kg", facts.rider_mass_kg},
                {"rider_power_w", facts.rider_power_w},
                {"scenario_fingerprint", facts.fingerprint},
                {"check_code", facts.check_code},
                {"seed", facts.seed},
                {"race_days", facts.races},
                {"effective_race_days", facts.effective_races},
                {"plain_draws", facts.plain},
                {"stopped_early", facts.stopped_early},
                {"segments", facts.segments}};
}

Json to_json(const AccuracyCheck& check) {
    return Json{{"rides_checked", check.rides_checked},
                {"worst_ratio", check.worst_ratio},
                {"settled_share", check.settled_share},
                {"not_solved", check.not_solved}};
}

Json list_causes(const SetupFindings& setup, const Chances& chance) {
    Json list = Json::array();
    for (const CauseRow& row : setup.no_finish_causes) {
        list.push_back(Json{{"cause", row.cause}, {"chance", chance(row.chance)}});
    }
    return list;
}

Json list_flats_by_cause(const SetupFindings& setup) {
    Json list = Json::array();
    for (const FlatCauseRow& row : setup.flats_by_cause) {
        list.push_back(Json{{"wheel", row.wheel},
                            {"cause", row.cause},
                            {"per_race", to_json(row.per_race)}});
    }
    return list;
}

Json list_worst_days(const SetupFindings& setup) {
    Json list = Json::array();
    for (const WorstDaysRow& row : setup.worst_days) {
        list.push_back(
            Json{{"share", row.share}, {"mean_judged_s", to_json(row.mean_s)}});
    }
    return list;
}

Json list_goals(const SetupFindings& setup, const Chances& chance) {
    Json list = Json::array();
    for (const Figure& goal : setup.goals) list.push_back(chance(goal));
    return list;
}

Json to_json(const SetupFindings& setup, const Chances& chance) {
    return Json{{"name", setup.name},
                {"vetoed", setup.vetoed},
                {"cautions", setup.cautions},
                {"typical_s", number_or_null(setup.typical_s)},
                {"nine_in_ten_s", to_json(setup.nine_in_ten_s)},
                {"goal_chances", list_goals(setup, chance)},
                {"flat", chance(setup.flat)},
                {"two_flats", chance(setup.two_flats)},
                {"front_flat", chance(setup.front_flat)},
                {"flats_per_race", to_json(setup.flats_per_race)},
                {"flats_by_cause", list_flats_by_cause(setup)},
                {"flat_at_speed", chance(setup.flat_at_speed)},
                {"front_flat_at_speed", chance(setup.front_flat_at_speed)},
                {"lose_long", chance(setup.lose_long)},
                {"no_finish", chance(setup.no_finish)},
                {"over_cutoff", chance(setup.over_cutoff)},
                {"no_finish_causes", list_causes(setup, chance)},
                {"flat_costs_s", number_or_null(setup.flat_costs_s)},
                {"flat_costs_often_s", number_or_null(setup.flat_costs_often_s)},
                {"flat_costs_se_s", number_or_null(setup.flat_costs_se_s)},
                {"flat_costs_often_se_s", number_or_null(setup.flat_costs_often_se_s)},
                {"mean_judged_s", to_json(setup.mean_judged_s)},
                {"sd_judged_s", to_json(setup.sd_judged_s)},
                {"worst_days", list_worst_days(setup)},
                {"percentiles", to_json(setup.percentiles)},
                {"quantiles_s", to_json(setup.quantiles_s)}};
}

Json list_parts(const PairFindings& pair) {
    if (!pair.parts_known) return nullptr;
    return Json{{"rolling_s", to_json(pair.rolling_s)},
                {"air_lost_s", to_json(pair.air_lost_s)},
                {"mass_s", to_json(pair.mass_s)},
                {"flats_s", to_json(pair.flats_s)}};
}

Json to_json(const PairFindings& pair, const Findings& findings) {
    const Chances chance(findings);
    return Json{
        {"setup", findings.setups[static_cast<std::size_t>(pair.setup)].name},
        {"against", findings.setups[static_cast<std::size_t>(findings.against)].name},
        {"mean_judged_s", to_json(pair.mean_s)},
        {"median_judged_s", to_json(pair.median_s)},
        {"percentiles", to_json(pair.percentiles)},
        {"faster", chance(pair.faster)},
        {"ties", chance(pair.ties)},
        {"both_finish", chance(pair.both_finish)},
        {"only_setup_finishes", chance(pair.only_setup_finishes)},
        {"only_against_finishes", chance(pair.only_against_finishes)},
        {"neither_finishes", chance(pair.neither_finishes)},
        {"p95_difference_s", to_json(pair.p95_difference_s)},
        {"mean_judged_independent_flats_s", to_json(pair.mean_independent_s)},
        {"faster_independent_flats", chance(pair.faster_independent)},
        {"parts", list_parts(pair)},
        {"could_be_9_in_10_s", to_json(pair.could_be_s)},
        {"knowledge_sd_s", pair.knowledge_sd_s},
        {"luck_sd_s", pair.luck_sd_s},
        {"knowledge_sd_se_s", number_or_null(pair.knowledge_sd_se_s)},
        {"luck_sd_se_s", number_or_null(pair.luck_sd_se_s)},
        {"day_sd_s", to_json(pair.day_sd_s)}};
}

const char* name_certainty(Certainty certainty) {
    switch (certainty) {
        case Certainty::kFirm:
            return "firm";
        case Certainty::kLeaning:
            return "leaning";
        case Certainty::kTossUp:
            break;
    }
    return "toss-up";
}

Json list_kit(const Findings& findings) {
    Json list = Json::array();
    for (const KitRow& row : findings.kit) {
        list.push_back(
            Json{{"setup", findings.setups[static_cast<std::size_t>(row.setup)].name},
                 {"item", row.item},
                 {"carried", row.carried},
                 {"one_more", row.is_added},
                 {"weighs_kg", row.weighs_kg},
                 {"finishes_gained", to_json(row.finishes)},
                 {"saves_s", to_json(row.saves_s)},
                 {"weight_costs_s", to_json(row.costs_s)},
                 {"net_saved_s", to_json(row.net_s)}});
    }
    return list;
}

Json list_verdict(const Findings& findings) {
    const Verdict& verdict = findings.verdict;
    const Json choice =
        verdict.choice < 0
            ? Json(nullptr)
            : Json(findings.setups[static_cast<std::size_t>(verdict.choice)].name);
    return Json{{"choice", choice},
                {"certainty", name_certainty(verdict.certainty)},
                {"share_agreeing", verdict.share_agreeing},
                {"rule", verdict.rule},
                {"reason", verdict.reason}};
}

// The words that explain every null of the file.
Json explain_nulls() {
    return Json{{"times", "no finish: later than every time"},
                {"interval_95_s", "a limit that so few days leave open, or no finish"},
                {"flat_costs_s, flat_costs_often_s", "no day with a flat and a finish"},
                {"p95_difference_s", "no finish at one of the two percentiles"},
                {"parts", "not computed in this run"},
                {"choice", "every setup is ruled out"},
                {"cutoff_s", "the race has none"}};
}

}  // namespace

std::string write_findings_json(const Findings& findings) {
    publish::check_findings(findings);
    Json setups = Json::array();
    for (const SetupFindings& setup : findings.setups) {
        setups.push_back(to_json(setup, Chances(findings)));
    }
    Json pairs = Json::array();
    for (const PairFindings& pair : findings.pairs) {
        pairs.push_back(to_json(pair, findings));
    }
    const Json document{
        {"schema", "flattail findings 1"},
        {"null_means", explain_nulls()},
        {"study", to_json(findings.facts)},
        {"goals_s", to_json(findings.goals_s)},
        {"cutoff_s", findings.cutoff_s > 0.0 ? Json(findings.cutoff_s) : Json(nullptr)},
        {"cutoffs", findings.cutoffs},
        {"judged_no_finish_s", findings.judged_no_finish_s},
        {"judged_rule", findings.judged_rule},
        {"matters_s", findings.matters_s},
        {"lost_by_flats_s", findings.lost_by_flats_s},
        {"setups", setups},
        {"pairs", pairs},
        {"conditions", to_json(findings.conditions)},
        {"histogram",
         Json{{"edges_s", to_json(findings.histogram.edges_s)},
              {"shares", to_json(findings.histogram.shares)},
              {"standard_errors", to_json(findings.histogram.standard_errors)}}},
        {"kit", list_kit(findings)},
        {"verdict", list_verdict(findings)},
        {"accuracy_check", to_json(findings.accuracy)},
        {"cautions", findings.cautions}};
    // Bytes that are not UTF-8 are replaced: JSON has no way to hold them.
    return document.dump(1, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace flattail
