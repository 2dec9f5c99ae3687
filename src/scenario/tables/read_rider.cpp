// The rider: mass, power and how it wanders, drag, and how fast a flat is repaired.
#include <fmt/format.h>

#include <array>

#include "chance/make_distribution.h"
#include "input/toml/node_values.h"
#include "scenario/rider/drag_by_yaw.h"
#include "scenario/rider/repair_skill.h"
#include "scenario/tables/read_tables.h"
#include "scenario/values/defaults.h"
#include "scenario/values/move_distribution.h"

namespace flattail::scenario {

namespace {

using input::Node;

Input make_zero(const Spec& spec, const Place& place) {
    Input zero = make_input(spec, make_stated_point(0.0));
    zero.origin = Origin::kStated;
    zero.source = "stated";
    zero.place = place;
    return zero;
}

void read_bad_day(Draft& draft, Table& rider) {
    const Spec& chance_spec = find_spec("rider.bad_day.chance");
    const Spec& loss_spec = find_spec("rider.bad_day.loss");
    const Node* node = rider.find("bad_day");
    Rider& model = draft.model.rider;
    if (node && node->is(input::NodeKind::kString)) {
        match_word(*node, "rider.bad_day", {"never"}, draft.problems);
        model.bad_day_chance = add_input(draft, make_zero(chance_spec, node->place));
        model.bad_day_loss = add_input(draft, make_zero(loss_spec, node->place));
        return;
    }
    Table table = rider.find_table("bad_day");
    model.bad_day_chance = take_input(draft, table, chance_spec);
    model.bad_day_loss = take_input(draft, table, loss_spec);
    table.reject_unknown_keys();
}

// What power is lost per hour, by the length of the race (common practice).
Spec make_fade_spec(const course::Course* course) {
    const Spec& spec = find_spec("rider.fade");
    const double length_m = course ? course->length_m : 90e3;
    if (length_m < 45e3) return with_usual(spec, 0.0);
    if (length_m < 130e3) return with_usual(spec, Form::kLognormalRange, .6, 2, 6);
    return with_usual(spec, Form::kLognormalRange, 1.5, 3.5, 6);
}

void read_fade(Draft& draft, Table& rider) {
    constexpr double kSecondsPerHour = 3600.0;
    Input fade = read_input(rider, make_fade_spec(draft.model.course.get()));
    draft.model.rider.fade_per_h =
        add_input(draft, scale_input(std::move(fade), kSecondsPerHour));
    draft.model.rider.fade_from_s =
        take_setting(draft, rider, find_spec("rider.fade_from"));
}

void note_constants(Draft& draft) {
    const Rider& rider = draft.model.rider;
    note_choice(draft, "rider.wheel_inertia", "turning inertia of both wheels",
                write_value(kKilogram, rider.wheel_inertia_kg), Origin::kPublished,
                "Martin et al. 1998 (from memory), I / r^2");
    note_choice(draft, "rider.launch_force", "most force when starting",
                write_number(rider.launch_force_n) + " N", Origin::kAssumption,
                "assumption");
}

Spec make_repair_spec(const Skill& skill) {
    constexpr double kWithin = 0.3;
    Spec spec = with_usual(find_spec("repair.median"), Form::kLognormalRange,
                           skill.minutes * (1 - kWithin), skill.minutes,
                           skill.minutes * (1 + kWithin));
    spec.layer = Layer::kKnowledge;
    return spec;
}

Input make_repair_luck(double spread) {
    StatedValue luck = make_stated_point(1.0);
    if (spread > 1.0) {
        luck.luck = chance::make_lognormal_median_spread(1.0, spread);
        luck.deviation = Deviation::kMultiply;
    }
    return make_input(find_spec("repair.day_factor"), luck);
}

const Spec& spread_spec() {
    static const Spec kSpread{"repair.spread",
                              "luck of one repair",
                              input::Dimension::kNumber,
                              kNoUnit,
                              Scale::kPositive,
                              Layer::kLuck,
                              1,
                              10,
                              "write a factor from 1 to 10: two thirds of repairs take "
                              "between median / spread and median x spread"};
    return kSpread;
}

// The luck of one repair, stated at `node`; null takes the usual one.
Input read_repair_luck(const Node* node, base::ProblemList& problems) {
    // Common practice: two repairs in three take between median / 1.5 and x 1.5.
    constexpr double kUsualSpread = 1.5;
    if (!node) return make_repair_luck(kUsualSpread);
    const auto spread = read_value(*node, spread_spec(), problems);
    Input luck = make_repair_luck(spread.value_or(kUsualSpread));
    luck.origin = Origin::kStated;
    luck.source = "stated";
    luck.place = node->place;
    return luck;
}

// { median, spread }: the median may be uncertain, the spread is the luck of one repair.
void read_stated_repair(Draft& draft, Table& table) {
    const Node* median = table.find("median");
    const Node* spread_node = table.find("spread");
    table.reject_unknown_keys();
    if (!median || !spread_node) {
        draft.problems.add_error(table.place(),
                                 "rider.repair needs a median and a spread",
                                 "write repair = { median = \"8 min\", spread = 1.5 }");
        return;
    }
    Input time =
        read_input_at(median, make_repair_spec(kSkills[kUsualSkill]), draft.problems);
    Input luck = read_repair_luck(spread_node, draft.problems);
    draft.model.repair.median_s = add_input(draft, std::move(time));
    draft.model.repair.day_factor = add_input(draft, std::move(luck));
}

std::size_t read_skill(Draft& draft, Table& rider) {
    const Node* node = rider.find("repair");
    if (!node) {
        note_choice(draft, "rider.repair", "who repairs", "ordinary", Origin::kAssumption,
                    "assumption");
        return kUsualSkill;
    }
    if (node->is(input::NodeKind::kTable)) {
        Table table = rider.find_table("repair");
        read_stated_repair(draft, table);
        return kUsualSkill;
    }
    Words words;
    for (const Skill& skill : kSkills) words.push_back(skill.word);
    return match_word(*node, "rider.repair", words, draft.problems).value_or(kUsualSkill);
}

}  // namespace

RiderStatement read_rider(Draft& draft, Table& table) {
    Rider& rider = draft.model.rider;
    if (const auto name = table.find_text("name")) rider.name = *name;
    rider.mass_kg = take_input(draft, table, find_spec("rider.mass"));
    rider.bicycle_kg = take_input(draft, table, find_spec("rider.bicycle"));
    rider.clothing_kg = take_input(draft, table, find_spec("rider.clothing"));
    RiderStatement said;
    said.drag = read_drag_area(draft, table);
    read_drag_by_yaw(draft, table);
    said.ride = read_power(draft, table, said.drag);
    read_bad_day(draft, table);
    read_fade(draft, table);
    rider.drivetrain_efficiency =
        take_setting(draft, table, find_spec("rider.drivetrain"));
    static const Words kPacings = {"steady", "terrain"};
    const auto pacing = table.find_word("pacing", kPacings);
    if (pacing) rider.pacing = *pacing == 0 ? Pacing::kSteady : Pacing::kTerrain;
    if (!table.find("pacing")) {
        note_choice(draft, "rider.pacing", "pacing", "terrain", Origin::kAssumption,
                    "assumption");
    }
    rider.power_variation_sd =
        take_setting(draft, table, find_spec("rider.power_variation"));
    note_constants(draft);
    return said;
}

void read_repair(Draft& draft, Table& rider, Table& table) {
    Repair& repair = draft.model.repair;
    const Skill& skill = kSkills[read_skill(draft, rider)];
    repair.can_repair = &skill != &kSkills[kCannot];
    // `repair.time` and `repair.spread`; what rider.repair states itself comes first.
    const Node* time = table.find("time");
    const Node* spread = table.find("spread");
    if (!repair.median_s.is_set()) {
        repair.median_s = add_input(
            draft, read_input_at(time, make_repair_spec(skill), draft.problems));
        repair.day_factor = add_input(draft, read_repair_luck(spread, draft.problems));
    }
    repair.first_try_fails = take_input(
        draft, table,
        with_usual(find_spec("repair.first_try_fails"), Form::kLognormalRange,
                   skill.fail_percent / 2, skill.fail_percent, skill.fail_percent * 2));
    repair.tyre_destroyed = take_input(draft, table, find_spec("repair.tyre_destroyed"));
    repair.rear_extra_s = take_setting(draft, table, find_spec("repair.rear_extra"));
    repair.tubeless_ratio =
        take_setting(draft, table, find_spec("repair.tubeless_factor"));
    repair.notice_s = take_setting(draft, table, find_spec("repair.notice"));
    repair.top_up_s = take_setting(draft, table, find_spec("repair.top_up"));
    repair.noticed_pa = take_setting(draft, table, find_spec("repair.soft_noticed"));
    read_help(draft, table);
}

double read_fitting_ratio(Draft& draft, Table& preparation) {
    // A beginner's fitting faults / those of a practised fitter (assumption).
    constexpr double kBeginner = 3.0;
    static const Words kFitters = {"practised", "beginner"};
    const auto fitter = preparation.find_word("fitting", kFitters);
    if (!preparation.find("fitting")) {
        note_choice(draft, "preparation.fitting", "who fits the tubes", "practised",
                    Origin::kAssumption, "assumption");
    }
    return fitter.value_or(0) == 1 ? kBeginner : 1.0;
}

}  // namespace flattail::scenario
