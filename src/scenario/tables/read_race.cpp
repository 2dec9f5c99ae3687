// Race and decision: what is ridden, for which goal, and how setups are compared.
#include <fmt/format.h>

#include <algorithm>

#include "input/toml/node_values.h"
#include "scenario/race/cutoffs.h"
#include "scenario/race/start_clock.h"
#include "scenario/setups/cautions.h"
#include "scenario/setups/kit.h"
#include "scenario/tables/read_tables.h"
#include "scenario/values/defaults.h"

namespace flattail::scenario {

namespace {

using input::Node;

void add_goal(Draft& draft, const Node& node) {
    const auto time_s =
        input::read_quantity(node, input::Dimension::kTime, draft.problems);
    if (!time_s) return;
    if (*time_s <= 0.0) {
        draft.problems.add_error(node.place, "race.goal is not after the start",
                                 "write a time like \"2:35:00\"");
        return;
    }
    draft.model.race.goals.push_back({*time_s, node.text});
}

void read_goals(Draft& draft, Table& race) {
    const Node* node = race.find("goal");
    if (!node) return;
    if (!node->is(input::NodeKind::kArray)) return add_goal(draft, *node);
    for (const Node& item : node->items) add_goal(draft, item);
}

void refuse_drafting(Draft& draft, Table& race) {
    const Node* node = race.find("drafting");
    if (!node) return;
    const bool is_refused = node->is(input::NodeKind::kBoolean) && !node->boolean;
    if (is_refused) return;
    draft.problems.add_error(
        node->place,
        "race.drafting is stated, but only rides alone are modelled (a "
        "flat in a pack is not a time loss)",
        "leave drafting out, or set it to false");
}

void read_speed_limit(Draft& draft, Table& race) {
    const auto limit = race.find_value(find_spec("race.speed_limit"));
    if (limit) draft.model.race.speed_limit_m_s = *limit;
}

}  // namespace

void read_race(Draft& draft, Table& race) {
    Race& model = draft.model.race;
    if (const auto name = race.find_text("name")) model.name = *name;
    read_start_clock(draft, race);
    read_goals(draft, race);
    static const Words kStarts = {"standing", "rolling"};
    if (const auto start = race.find_word("start", kStarts)) {
        model.start = *start == 0 ? StartKind::kStanding : StartKind::kRolling;
    }
    static const Words kStops = {"counted", "not counted"};
    if (const auto stops = race.find_word("stops", kStops)) {
        draft.model.stop_cost = *stops == 0 ? StopCost::kCounted : StopCost::kNotCounted;
    }
    read_speed_limit(draft, race);
    model.invented = race.find_boolean("invented").value_or(false);
    refuse_drafting(draft, race);
    read_cutoffs(draft, race);
}

void check_times(Draft& draft, Table& race) {
    if (!draft.model.course) return;
    const Node* goal = race.find("goal");
    std::vector<const Node*> nodes;
    if (goal && goal->is(input::NodeKind::kArray)) {
        for (const Node& item : goal->items) nodes.push_back(&item);
    } else if (goal) {
        nodes.push_back(goal);
    }
    if (nodes.size() == draft.model.race.goals.size()) {
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            check_mean_speed(draft.problems, *nodes[i], "race.goal",
                             draft.model.race.goals[i].time_s,
                             draft.model.course->length_m);
        }
    }
    check_cutoffs(draft, race);
}

namespace {

constexpr const char* kRuleHint =
    "write \"mean time\", \"typical\", \"worst days\", \"goal\", \"finish\" or a share "
    "of "
    "days like \"90 %\"";

// "90 %": the time within which 90 % of days lie.
bool read_percentile(Decision& decision, const std::string& text) {
    const auto share = input::parse_quantity(text, input::Dimension::kProbability);
    if (!share || *share < 0.01 || *share > 0.99) return false;
    decision.rule = RuleKind::kPercentile;
    decision.percentile = *share;
    return true;
}

void read_rule(Draft& draft, Table& table) {
    Decision& decision = draft.model.decision;
    const Node* node = table.find("rule");
    if (!node) {
        note_choice(draft, "decision.rule", "setups are compared by", "mean time",
                    Origin::kAssumption, "assumption");
        return;
    }
    const auto text = input::read_text(*node, draft.problems);
    if (!text) return;
    const std::string word = fold_case(*text);
    if (word == "mean time" || word == "mean") {
        decision.rule = RuleKind::kMean;
    } else if (word == "typical") {
        decision.rule = RuleKind::kPercentile;
        decision.percentile = 0.5;
    } else if (word == "worst days") {
        decision.rule = RuleKind::kWorstDays;
    } else if (word == "finish") {
        decision.rule = RuleKind::kFinish;
    } else if (word == "goal") {
        decision.rule = RuleKind::kGoal;
        if (!draft.model.race.goals.empty()) return;
        table.add_error(*node, "decision.rule is \"goal\", but the race has none",
                        "write goal = \"2:35:00\" under race");
    } else if (!read_percentile(decision, word)) {
        table.add_error(*node, fmt::format("decision.rule cannot be \"{}\"", *text),
                        kRuleHint);
    }
}

bool is_among(const std::string& name, const std::vector<std::string>& names) {
    return std::any_of(names.begin(), names.end(), [&](const std::string& other) {
        return fold_case(other) == fold_case(name);
    });
}

// A squad shares one file: who lacks the setup compared with has the first one owned.
void read_against(Draft& draft, Table& table) {
    const Node* node = table.find("against");
    if (!node) return;
    const auto name = input::read_text(*node, draft.problems);
    if (!name) return;
    std::vector<std::string> names;
    for (const Setup& setup : draft.model.setups) names.push_back(setup.name);
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (fold_case(names[i]) != fold_case(*name)) continue;
        draft.model.decision.against = static_cast<int>(i);
        return;
    }
    if (names.empty()) return;  // said already
    if (is_among(*name, draft.not_owned)) {
        draft.problems.add_warning(
            node->place,
            fmt::format("\"{}\", which the others are compared with, is not owned: "
                        "\"{}\" takes its place",
                        *name, names.front()),
            "add it to the setups owned, or write another decision.against");
        return;
    }
    table.add_error(*node,
                    fmt::format("decision.against: no setup is called \"{}\"", *name),
                    "write " + list_words(names));
}

void read_minimum_kit(Draft& draft, Table& table, const Parts& parts) {
    const Node* node = table.find("minimum_kit");
    if (!node) return;
    Kit kit = read_kit(node, parts, draft.problems).kit;
    for (Setup& setup : draft.model.setups) {
        check_least_kit(kit, setup);
    }
    draft.model.decision.least_kit = std::move(kit);
}

Spec make_ceiling_spec(const char* name) {
    return {name,
            name,
            input::Dimension::kProbability,
            kPercent,
            Scale::kChance,
            Layer::kKnowledge,
            0,
            100,
            "write a chance per race like \"2 %\""};
}

// "2 %" for either wheel, or { any = "2 %", front = "0.5 %" }.
void read_ceiling(Draft& draft, Table& table) {
    static const Spec kAny = make_ceiling_spec("decision.flats_at_speed_most.any");
    static const Spec kFront = make_ceiling_spec("decision.flats_at_speed_most.front");
    const Node* node = table.find("flats_at_speed_most");
    if (!node) return;
    Decision& decision = draft.model.decision;
    if (!node->is(input::NodeKind::kTable)) {
        decision.flats_at_speed_most = read_value(*node, kAny, draft.problems);
        return;
    }
    Table ceiling = table.find_table("flats_at_speed_most");
    decision.flats_at_speed_most = ceiling.find_value(kAny);
    decision.front_at_speed_most = ceiling.find_value(kFront);
    if (!ceiling.find("any") && !ceiling.find("front")) {
        table.add_error(*node, "decision.flats_at_speed_most names no wheel",
                        "write \"2 %\" or { any = \"2 %\", front = \"0.5 %\" }");
    }
    ceiling.reject_unknown_keys();
}

}  // namespace

void read_decision(Draft& draft, Table& table, const Parts& parts) {
    read_rule(draft, table);
    read_against(draft, table);
    read_minimum_kit(draft, table, parts);
    read_ceiling(draft, table);
    Decision& decision = draft.model.decision;
    decision.matters_s = take_setting(draft, table, find_spec("decision.matters"));
    decision.lost_by_flats_s = take_setting(draft, table, find_spec("decision.losing"));
    const Spec& costs = find_spec("decision.no_finish_costs");
    decision.no_finish_costs_s = draft.model.race.cutoff_s
                                     ? table.find_value(costs).value_or(3600.0)
                                     : take_setting(draft, table, costs);
}

}  // namespace flattail::scenario
