#include "scenario/setups/inners.h"

#include <fmt/format.h>

#include <array>

#include "physics/flat_hazard.h"
#include "scenario/setups/leaks.h"
#include "scenario/values/move_distribution.h"

namespace flattail::scenario {

namespace {

using input::Dimension;
using input::Node;

struct Range {
    double low, mid, high;
};

// No published rate of cuts by inner exists: 1 with a wide range is the honest default.
// Rolling: common practice; independent tests differ, the ranges hold them all.
struct Kind {
    const char* word;
    const char* other_word;
    InnerKind kind;
    InnerMaterial material;
    Range crr_change;  // 9 in 10
    Range cut_ratio;
    double fault_percent;  // freshly fitted, not yet ridden; a factor of 3 either way
    UsualLeak leak;        // common practice but for light butyl; METHOD 5.15
};

constexpr UsualLoss seen_psi(double low, double mid, double high) {
    return {low, mid, high, Origin::kCommonPractice};
}

constexpr auto kRubber = physics::WallMaterial::kNaturalRubber;
constexpr auto kButylLike = physics::WallMaterial::kButyl;

constexpr std::array<Kind, 5> kKinds = {{
    {"butyl",
     "standard butyl",
     InnerKind::kTube,
     InnerMaterial::kButyl,
     {0, 0, 0},
     {1, 1, 1},
     0.3,
     {kButylLike, seen_psi(.2, .3, .8), seen_psi(4, 10, 15)}},
    {"light butyl",
     "light",
     InnerKind::kTube,
     InnerMaterial::kButyl,
     {-.0004, -.0002, 0},
     {.8, 1, 1.3},
     0.4,
     {kButylLike, {.3, .5, 1.2, Origin::kAssumption}, {}}},
    {"TPU",
     "plastic",
     InnerKind::kTube,
     InnerMaterial::kPlastic,
     {-.0007, -.0004, 0},
     {.6, 1, 1.8},
     0.6,
     {kButylLike, seen_psi(.2, .4, 1.5), {}}},
    {"latex",
     "latex tube",
     InnerKind::kTube,
     InnerMaterial::kLatex,
     {-.0012, -.0005, -.0003},
     {.6, 1, 1.7},
     0.8,
     {kRubber, seen_psi(3, 5, 9), seen_psi(20, 35, 50)}},
    {"tubeless",
     "sealant",
     InnerKind::kSealant,
     InnerMaterial::kNone,
     {-.0007, -.0003, .0002},
     {.7, 1, 1.4},
     0.3,
     {kButylLike, seen_psi(.5, 1.2, 4), {}}},
}};

const Kind* find_kind(const std::string& word) {
    const std::string wanted = fold_case(word);
    for (const Kind& kind : kKinds) {
        if (wanted == fold_case(kind.word) || wanted == kind.other_word) return &kind;
    }
    return nullptr;
}

Usual make_usual(Form form, const Range& range, Origin origin) {
    // The race tyre and butyl are what all others are compared with.
    if (range.low == range.high) {
        return {Form::kCertain, range.low,       range.mid,
                range.high,     Origin::kStated, "the reference"};
    }
    return {
        form,      range.low,
        range.mid, range.high,
        origin,    origin == Origin::kCommonPractice ? "common practice" : "assumption"};
}

struct InnerSpecs {
    Spec crr_change, cut_ratio, fitting_fault;
};

struct SealantSpecs {
    Spec holds, loses;
};

InnerSpecs make_specs(const std::string& name, const Kind& kind) {
    const auto address = [&](const char* key) {
        return fmt::format("inner.{}.{}", name, key);
    };
    const auto label = [&](const char* what) {
        return fmt::format("{}: {}", name, what);
    };
    const double fault = kind.fault_percent;
    InnerSpecs s;
    s.crr_change = {
        address("rolling"),
        label("change of Crr"),
        Dimension::kRatio,
        kNoUnit,
        Scale::kSigned,
        Layer::kKnowledge,
        -.004,
        .01,
        "write the change of Crr against butyl, like -0.0005",
        make_usual(Form::kNormalRange, kind.crr_change, Origin::kCommonPractice)};
    s.cut_ratio = {
        address("cuts"),
        label("cuts / those of butyl"),
        Dimension::kNumber,
        kNoUnit,
        Scale::kPositive,
        Layer::kKnowledge,
        0,
        20,
        "write a factor like 1",
        make_usual(Form::kLognormalRange, kind.cut_ratio, Origin::kAssumption)};
    s.fitting_fault = {address("fitting"),
                       label("fitting faults of a fresh tube"),
                       Dimension::kProbability,
                       kPercent,
                       Scale::kChance,
                       Layer::kKnowledge,
                       0,
                       50,
                       "write a chance like \"0.5 %\"",
                       make_usual(Form::kLognormalRange, {fault / 3, fault, fault * 3},
                                  Origin::kAssumption)};
    return s;
}

SealantSpecs make_sealant_specs(const std::string& name) {
    SealantSpecs s;
    s.holds = {fmt::format("inner.{}.holds", name),
               name + ": sealant closes a cut",
               Dimension::kProbability,
               kPercent,
               Scale::kChance,
               Layer::kKnowledge,
               0,
               100,
               "write a chance like \"65 %\"",
               make_usual(Form::kNormalRange, {40, 100 * physics::kSealantHoldChance, 85},
                          Origin::kAssumption)};
    s.loses = {fmt::format("inner.{}.loses", name),
               name + ": pressure lost before sealant holds",
               Dimension::kPressure,
               kPsi,
               Scale::kPositive,
               Layer::kLuck,
               0,
               100,
               "write a pressure like \"15 psi\"",
               make_usual(Form::kLognormalRange, {5, 15, 30}, Origin::kAssumption)};
    return s;
}

InnerPart start_part(const std::string& name, const Kind& kind) {
    InnerPart part;
    part.inner.name = name;
    part.inner.kind = kind.kind;
    part.inner.material = kind.material;
    return part;
}

// Sealant dries; only the default chance is aged, a stated one is taken at its word.
void read_sealant(Table& table, InnerPart& part) {
    static const Spec kAge{"inner.sealant_age",
                           "age of the sealant",
                           Dimension::kTime,
                           Unit{"d", 86400.0},
                           Scale::kPositive,
                           Layer::kKnowledge,
                           0,
                           2000,
                           "write an age like \"6 week\""};
    const SealantSpecs specs = make_sealant_specs(part.inner.name);
    const auto age_s = table.find_value(kAge);
    const Node* holds = table.find("holds");
    part.sealant_holds = read_input(table, specs.holds);
    part.sealant_loss_pa = read_input(table, specs.loses);
    if (!age_s) return;
    if (holds) {
        table.add_error(*holds, "inner.holds and inner.sealant_age are both stated",
                        "keep one: the age is used to work out the chance");
        return;
    }
    const double fresh = physics::kSealantHoldChance;
    part.sealant_holds =
        scale_input(std::move(part.sealant_holds),
                    physics::compute_sealant_hold_chance(fresh, *age_s) / fresh);
    part.sealant_holds.unit_si = kPercent.si;
}

void take_leak(LeakPart leak, InnerPart& part) {
    part.inner.leak = leak.leak;
    part.air_loss_pa = std::move(leak.air_loss_pa);
    part.carbon_dioxide_loss_pa = std::move(leak.carbon_dioxide_loss_pa);
}

void refuse_sealant_keys(Table& table) {
    for (const char* key : {"holds", "loses", "sealant_age"}) {
        const Node* node = table.find(key);
        if (!node) continue;
        table.add_error(*node, fmt::format("inner.{} is stated, but this is a tube", key),
                        "write kind = \"tubeless\", or leave it out");
    }
}

}  // namespace

std::vector<std::string> known_inner_words() {
    std::vector<std::string> words;
    for (const Kind& kind : kKinds) words.push_back(kind.word);
    return words;
}

std::optional<InnerPart> make_known_inner(const std::string& word) {
    const Kind* kind = find_kind(word);
    if (!kind) return std::nullopt;
    const InnerSpecs specs = make_specs(kind->word, *kind);
    InnerPart part = start_part(kind->word, *kind);
    part.crr_change = make_usual_input(specs.crr_change);
    part.cut_ratio = make_usual_input(specs.cut_ratio);
    part.fitting_fault = make_usual_input(specs.fitting_fault);
    const SealantSpecs sealant = make_sealant_specs(kind->word);
    part.sealant_holds = make_usual_input(sealant.holds);
    part.sealant_loss_pa = make_usual_input(sealant.loses);
    take_leak(make_usual_leak(kind->word, kind->leak), part);
    return part;
}

std::optional<InnerPart> read_inner(const Node& node, const TestedProducts& tested,
                                    base::ProblemList& problems) {
    Table table(&node, "inner", problems);
    const auto name = table.find_text("name");
    if (!name && !table.find("name")) {
        problems.add_error(table.place(), "inner has no name", "write name = \"...\"");
    }
    const auto word = table.find_word("kind", known_inner_words());
    const Kind* by_name = name ? find_kind(*name) : nullptr;
    const Kind& kind = word ? kKinds[*word] : by_name ? *by_name : kKinds[0];
    if (!word && !by_name && !table.find("kind")) {
        problems.add_error(table.place(), "inner has no kind",
                           "write kind = " + list_words(known_inner_words()));
    }
    const InnerSpecs specs = make_specs(name.value_or("?"), kind);
    InnerPart part = start_part(name.value_or("?"), kind);
    part.crr_change = read_input(table, specs.crr_change);
    part.inner.tested_as = tested.read(table, specs.crr_change, part.crr_change);
    part.cut_ratio = read_input(table, specs.cut_ratio);
    part.fitting_fault = read_input(table, specs.fitting_fault);
    take_leak(read_leak(table, name.value_or("?"), kind.leak), part);
    if (kind.kind == InnerKind::kSealant) {
        read_sealant(table, part);
    } else {
        refuse_sealant_keys(table);
    }
    table.reject_unknown_keys();
    if (!name) return std::nullopt;
    return part;
}

}  // namespace flattail::scenario
