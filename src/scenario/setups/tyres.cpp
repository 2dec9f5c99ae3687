#include "scenario/setups/tyres.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "physics/rolling.h"

namespace flattail::scenario {

namespace {

using input::Dimension;
using input::Node;

struct Range {
    double low, mid, high;
};

struct Kind {
    const char* word;
    Range crr_change;  // against the race tyre, common practice
    Range cut_ratio;   // against the race tyre, assumption
};

constexpr std::array<Kind, 3> kKinds = {{
    {"race", {0, 0, 0}, {1, 1, 1}},
    {"thin time-trial", {-.0008, -.0004, 0}, {1.1, 1.6, 2.5}},
    {"tough", {.0008, .0015, .0025}, {.25, .45, .7}},
}};

constexpr double kNarrowest_mm = 18.0;
constexpr double kWidest_mm = 60.0;

const Words& kind_words() {
    static const Words kWords = {kKinds[0].word, kKinds[1].word, kKinds[2].word};
    return kWords;
}

bool is_kind_word(const std::string& name) {
    return std::any_of(kKinds.begin(), kKinds.end(),
                       [&](const Kind& kind) { return fold_case(name) == kind.word; });
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

Spec make_crr_spec(const std::string& name, const Kind& kind) {
    return {fmt::format("tyre.{}.rolling", name),
            fmt::format("{} tyre: change of Crr", name),
            Dimension::kRatio,
            kNoUnit,
            Scale::kSigned,
            Layer::kKnowledge,
            -.004,
            .01,
            "write the change of Crr against the race tyre, like -0.0004",
            make_usual(Form::kNormalRange, kind.crr_change, Origin::kCommonPractice)};
}

Spec make_cuts_spec(const std::string& name, const Kind& kind) {
    return {fmt::format("tyre.{}.cuts", name),
            fmt::format("{} tyre: cuts / those of the race tyre", name),
            Dimension::kNumber,
            kNoUnit,
            Scale::kPositive,
            Layer::kKnowledge,
            0,
            20,
            "write a factor like 1",
            make_usual(Form::kLognormalRange, kind.cut_ratio, Origin::kAssumption)};
}

Spec make_pressure_spec(const char* name) {
    return {name,
            "pressure limit",
            Dimension::kPressure,
            kBar,
            Scale::kPositive,
            Layer::kKnowledge,
            1.0,
            15,
            "write the marking on the side of the tyre, like \"6.5 bar\""};
}

// "tough 28 mm", the name of a built-in tyre.
struct KnownName {
    std::size_t kind = 0;
    double width_m = 0;
};

std::optional<KnownName> read_known_name(const std::string& words) {
    const std::string wanted = fold_case(words);
    for (std::size_t i = 0; i < kKinds.size(); ++i) {
        const std::string start = std::string(kKinds[i].word) + ' ';
        if (wanted.compare(0, start.size(), start) != 0) continue;
        const auto width_m =
            input::parse_quantity(wanted.substr(start.size()), Dimension::kLength);
        if (!width_m) return std::nullopt;
        const double width_mm = *width_m * 1000.0;
        if (width_mm < kNarrowest_mm || width_mm > kWidest_mm) return std::nullopt;
        return KnownName{i, *width_m};
    }
    return std::nullopt;
}

}  // namespace

std::optional<TyrePart> make_known_tyre(const std::string& words) {
    const auto known = read_known_name(words);
    if (!known) return std::nullopt;
    const Kind& kind = kKinds[known->kind];
    TyrePart part;
    part.tyre.name =
        fmt::format("{} {} mm", kind.word, write_number(known->width_m * 1000.0));
    part.tyre.width_m = known->width_m;
    part.tyre.reference_pa = physics::find_reference_pressure_pa(known->width_m);
    part.crr_change = make_usual_input(make_crr_spec(kind.word, kind));
    part.cut_ratio = make_usual_input(make_cuts_spec(kind.word, kind));
    return part;
}

std::optional<TyrePart> read_tyre(const Node& node, const TestedProducts& tested,
                                  base::ProblemList& problems) {
    static const Spec kWidth{
        "tyre.width",  "width",          Dimension::kLength,
        kMillimetre,   Scale::kPositive, Layer::kKnowledge,
        kNarrowest_mm, kWidest_mm,       "write the measured width, like \"28 mm\""};
    Table table(&node, "tyre", problems);
    const auto name = table.find_text("name");
    const auto width_m = table.find_value(kWidth);
    if (!table.find("name")) {
        problems.add_error(table.place(), "tyre has no name", "write name = \"...\"");
    }
    const auto known = name ? read_known_name(*name) : std::nullopt;
    if (!table.find("width") && !known) {
        problems.add_error(table.place(), "tyre has no width", kWidth.advice);
    }
    if (name && is_kind_word(*name)) {
        table.add_error(*table.find("name"),
                        fmt::format("tyre.name \"{}\" is the word for a kind", *name),
                        "give the tyre a name of its own");
    }
    const std::size_t usual = known ? known->kind : 0;
    const std::size_t index = table.find_word("kind", kind_words()).value_or(usual);
    const Kind& kind = kKinds[index];
    const double usual_m = known ? known->width_m : physics::kDefaultReferenceWidth;
    TyrePart part;
    part.tyre.name = name.value_or("?");
    part.tyre.width_m = width_m.value_or(usual_m);
    part.tyre.reference_pa = physics::find_reference_pressure_pa(part.tyre.width_m);
    // What is not stated of a built-in tyre is the same unknown fact as that of its kind.
    const auto owner = [&](std::initializer_list<const char*> keys) {
        const bool is_stated = std::any_of(
            keys.begin(), keys.end(), [&](const char* key) { return table.find(key); });
        return known && index == known->kind && !is_stated ? std::string(kind.word)
                                                           : part.tyre.name;
    };
    const Spec change = make_crr_spec(owner({"rolling", "tested_as"}), kind);
    part.crr_change = read_input(table, change);
    part.tyre.tested_as = tested.read(table, change, part.crr_change);
    part.cut_ratio = read_input(table, make_cuts_spec(owner({"cuts"}), kind));
    part.tyre.most_pa = table.find_value(make_pressure_spec("tyre.most"));
    part.tyre.least_pa = table.find_value(make_pressure_spec("tyre.least"));
    if (part.tyre.most_pa && part.tyre.least_pa &&
        *part.tyre.least_pa >= *part.tyre.most_pa) {
        table.add_error(*table.find("least"), "tyre.least is not below tyre.most",
                        "write the two limits on the side of the tyre");
    }
    table.reject_unknown_keys();
    if (!name) return std::nullopt;
    return part;
}

std::optional<Spec> make_wear_spec(Wear wear) {
    if (wear == Wear::kNew) return std::nullopt;
    const bool half = wear == Wear::kHalf;
    return Spec{
        half ? "tyre.half worn" : "tyre.worn",
        half ? "cuts of a half worn tyre / new" : "cuts of a worn tyre / new",
        Dimension::kNumber,
        kNoUnit,
        Scale::kPositive,
        Layer::kKnowledge,
        .1,
        20,
        "write a factor like 1.3",
        make_usual(Form::kLognormalRange, half ? Range{1, 1.3, 1.8} : Range{1.3, 2, 3},
                   Origin::kAssumption)};
}

}  // namespace flattail::scenario
