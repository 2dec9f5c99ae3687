#include "study/facts.h"

#include <fmt/format.h>

#include "flattail/version.h"
#include "sampling/address.h"

namespace flattail::study {

namespace {

// Eight hexadecimal digits that change with anything that can move a result.
std::string make_check_code(const StudyFacts& facts) {
    const std::string all =
        fmt::format("{} {} {} {} {}", facts.version, facts.fingerprint, facts.seed,
                    facts.races, facts.plain);
    const std::uint32_t hash = sampling::hash_input_name(all);
    return fmt::format("{:04x}-{:04x}", hash >> 16, hash & 0xffffU);
}

// One time after the start needs no list.
std::vector<std::string> list_cutoffs(const scenario::Race& race) {
    const auto& cutoffs = race.cutoffs;
    const bool plain = cutoffs.empty() || (cutoffs.size() == 1 && race.cutoff_s &&
                                           !cutoffs.front().is_by_clock());
    std::vector<std::string> list;
    if (plain) return list;
    for (const scenario::Cutoff& cutoff : cutoffs) list.push_back(cutoff.text);
    return list;
}

bool is_certain(const scenario::Model& model, InputId id) {
    if (!id.is_set()) return true;
    const Input& input = model.input(id);
    return input.deviation == Deviation::kNone && input.knowledge.shape == Shape::kPoint;
}

}  // namespace

StudyFacts state_facts(const Prepared& prepared, const StudyOptions& options,
                       std::size_t days, bool interrupted) {
    const scenario::Model& model = *prepared.model;
    StudyFacts f;
    f.version = version();
    f.scenario_file = model.file;
    f.race_name = model.race.name;
    f.rider_name = model.rider.name;
    f.date = model.race.date;
    f.invented = model.race.invented;
    f.start_clock_s = model.race.start_clock_s;
    f.start_varies = !is_certain(model, model.race.swim_s) ||
                     !is_certain(model, model.race.transition_s);
    f.course_length_m = model.course->length_m;
    f.course_ascent_m = model.course->ascent_m;
    f.rider_mass_kg = ride::find_median(model, model.rider.mass_kg);
    f.rider_power_w = ride::find_median(model, model.rider.power_w);
    f.fingerprint = model.fingerprint;
    f.seed = options.seed;
    f.races = static_cast<std::int64_t>(days);
    f.plain = options.draw == DrawKind::kPlain;
    f.stopped_early = interrupted;
    f.segments = prepared.road->count();
    f.check_code = make_check_code(f);
    return f;
}

void state_rules(const scenario::Model& model, Findings& findings) {
    for (const scenario::Goal& goal : model.race.goals) {
        findings.goals_s.push_back(goal.time_s);
    }
    findings.cutoff_s = model.race.cutoff_s.value_or(0.0);
    findings.cutoffs = list_cutoffs(model.race);
    findings.matters_s = model.decision.matters_s;
    findings.lost_by_flats_s = model.decision.lost_by_flats_s;
    findings.against = model.decision.against;
    const auto& against = model.setups[static_cast<std::size_t>(model.decision.against)];
    findings.judged_rule =
        model.race.cutoff_s
            ? std::string("the cutoff")
            : fmt::format("the typical finish of {} + {:.0f} min", against.name,
                          model.decision.no_finish_costs_s / 60.0);
}

}  // namespace flattail::study
