#include "scenario/race/cutoffs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "input/toml/node_values.h"
#include "scenario/race/start_clock.h"

namespace flattail::scenario {

namespace {

using input::Dimension;
using input::Node;

// Mean speeds that no rider keeps over a race, alone and on a road (assumption).
constexpr double kSlowestMean_m_s = 8.0 / 3.6;
constexpr double kFastestMean_m_s = 80.0 / 3.6;
// A place nearer to the start or the finish than this is a slip of the pen.
constexpr double kNearest_m = 500.0;
constexpr double kDay_s = 86400.0;
constexpr const char* kForms =
    "write \"4:00:00\" after the start, \"14:30\" by the clock, or "
    "{ at = \"45 km\", by = \"11:10\" }";

std::vector<const Node*> list_nodes(Table& race) {
    const Node* node = race.find("cutoff");
    if (!node) return {};
    if (!node->is(input::NodeKind::kArray)) return {node};
    std::vector<const Node*> nodes;
    for (const Node& item : node->items) nodes.push_back(&item);
    return nodes;
}

// "14:30", two digits on both sides: by the clock. "4:00:00" is a time after the start.
bool is_clock(const Node& node) {
    const std::string& text = node.text;
    const auto digit = [&](std::size_t i) {
        return std::isdigit(static_cast<unsigned char>(text[i])) != 0;
    };
    return node.is(input::NodeKind::kString) && text.size() == 5 && text[2] == ':' &&
           digit(0) && digit(1) && digit(3) && digit(4);
}

void read_time_after_start(Draft& draft, const Node& node, Cutoff& cutoff) {
    const auto time_s = input::read_quantity(node, Dimension::kTime, draft.problems);
    if (!time_s) return;
    if (*time_s <= 0.0) {
        draft.problems.add_error(node.place, "race.cutoff is not after the start",
                                 "write a time after the start, like \"5:30:00\"");
        return;
    }
    cutoff.within_s = *time_s;
}

void read_time_of_day(Draft& draft, const Node& node, Cutoff& cutoff) {
    const auto clock = input::read_clock(node, draft.problems);
    if (clock) cutoff.clock_s = clock->second_of_day;
}

void read_table(Draft& draft, const Node& node, Cutoff& cutoff) {
    Table table(&node, "race.cutoff", draft.problems);
    const Node* at = table.find("at");
    const Node* by = table.find("by");
    const Node* within = table.find("within");
    table.reject_unknown_keys();
    if ((by != nullptr) == (within != nullptr)) {
        draft.problems.add_error(
            node.place, "race.cutoff needs either a clock or a time after the start",
            "write { at = \"45 km\", by = \"11:10\" } or { at = \"45 km\", within = "
            "\"1:40:00\" }");
        return;
    }
    if (at) {
        const auto at_m = input::read_quantity(*at, Dimension::kLength, draft.problems);
        if (at_m) cutoff.at_m = *at_m;
    }
    if (by) read_time_of_day(draft, *by, cutoff);
    if (within) read_time_after_start(draft, *within, cutoff);
}

Cutoff read_cutoff(Draft& draft, const Node& node) {
    Cutoff cutoff;
    if (node.is(input::NodeKind::kTable)) {
        read_table(draft, node, cutoff);
    } else if (is_clock(node)) {
        read_time_of_day(draft, node, cutoff);
    } else {
        read_time_after_start(draft, node, cutoff);
    }
    return cutoff;
}

std::string write_hours(double time_s) {
    const auto seconds = std::lround(time_s);
    return fmt::format("{}:{:02}:{:02}", seconds / 3600, seconds / 60 % 60, seconds % 60);
}

std::string describe(const Cutoff& cutoff) {
    const std::string place =
        cutoff.is_at_finish() ? "finish" : fmt::format("km {:g}", cutoff.at_m / 1000.0);
    return cutoff.is_by_clock()
               ? fmt::format("{} by {}", place, write_clock(cutoff.clock_s))
               : fmt::format("{} within {}", place, write_hours(cutoff.within_s));
}

bool check_place(Draft& draft, const Node& node, const Cutoff& cutoff) {
    const double length_m = draft.model.course->length_m;
    if (cutoff.is_at_finish()) return true;
    if (cutoff.at_m >= kNearest_m && cutoff.at_m <= length_m - kNearest_m) return true;
    draft.problems.add_error(
        node.place,
        fmt::format("race.cutoff at {} does not lie along the course of {:.1f} km",
                    write_value(kKilometre, cutoff.at_m), length_m / 1000.0),
        "write a place at least 500 m from start and finish, or leave `at` out for the "
        "finish");
    return false;
}

// A clock before the start belongs to the next day.
bool settle_clock(Draft& draft, const Node& node, Cutoff& cutoff) {
    const double start_s = draft.model.race.start_clock_s;
    if (!cutoff.is_by_clock() || cutoff.clock_s > start_s) return true;
    const double distance_m = std::min(cutoff.at_m, draft.model.course->length_m);
    if (distance_m / (cutoff.clock_s + kDay_s - start_s) >= kSlowestMean_m_s) {
        cutoff.clock_s += kDay_s;
        return true;
    }
    draft.problems.add_error(
        node.place,
        fmt::format("race.cutoff {} is before the start of the ride at {}",
                    write_clock(cutoff.clock_s), write_clock(start_s)),
        kForms);
    return false;
}

double find_allowance_s(const Race& race, const Cutoff& cutoff) {
    return std::min(cutoff.within_s, cutoff.clock_s - race.start_clock_s);
}

// Says the cutoff as it stands in the file; a table has no words of its own.
void check_speed(Draft& draft, const Node& node, const Cutoff& cutoff) {
    Node said = node;
    if (node.is(input::NodeKind::kTable)) said.text = describe(cutoff);
    check_mean_speed(draft.problems, said, "race.cutoff",
                     find_allowance_s(draft.model.race, cutoff),
                     std::min(cutoff.at_m, draft.model.course->length_m));
}

}  // namespace

void check_mean_speed(base::ProblemList& problems, const Node& node,
                      const std::string& what, double time_s, double distance_m) {
    const double mean_m_s = distance_m / time_s;
    if (mean_m_s >= kSlowestMean_m_s && mean_m_s <= kFastestMean_m_s) return;
    const std::string by_clock =
        what == "race.cutoff" ? ", or \"14:30\" by the clock" : "";
    problems.add_error(
        node.place,
        fmt::format(
            "{} \"{}\" means {:.0f} km/h over {:.1f} km, which nobody rides alone", what,
            node.text, mean_m_s * 3.6, distance_m / 1000.0),
        "write hours:minutes:seconds after the start, like \"2:35:00\"" + by_clock);
}

void read_cutoffs(Draft& draft, Table& race) {
    const auto nodes = list_nodes(race);
    const Node* list = race.find("cutoff");
    if (list && nodes.size() > kMostCutoffs) {
        race.add_error(*list,
                       fmt::format("race.cutoff lists {} cutoffs, more than {}",
                                   nodes.size(), kMostCutoffs),
                       "keep those that a rider could miss");
        return;
    }
    for (const Node* node : nodes) {
        draft.model.race.cutoffs.push_back(read_cutoff(draft, *node));
    }
}

void check_cutoffs(Draft& draft, Table& race) {
    Race& model = draft.model.race;
    const auto nodes = list_nodes(race);
    for (std::size_t i = 0; i < model.cutoffs.size(); ++i) {
        Cutoff& cutoff = model.cutoffs[i];
        const bool is_set = cutoff.is_by_clock() || std::isfinite(cutoff.within_s);
        if (!is_set || !check_place(draft, *nodes[i], cutoff)) continue;
        if (!settle_clock(draft, *nodes[i], cutoff)) continue;
        check_speed(draft, *nodes[i], cutoff);
        cutoff.text = describe(cutoff);
        if (!cutoff.is_at_finish()) continue;
        const double allowed_s = find_allowance_s(model, cutoff);
        model.cutoff_s = std::min(model.cutoff_s.value_or(allowed_s), allowed_s);
    }
    std::stable_sort(model.cutoffs.begin(), model.cutoffs.end(),
                     [](const Cutoff& a, const Cutoff& b) { return a.at_m < b.at_m; });
}

}  // namespace flattail::scenario
