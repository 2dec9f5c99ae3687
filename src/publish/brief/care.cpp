#include "publish/brief/care.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "chance/distribution.h"
#include "course/describe.h"
#include "publish/brief/calendar.h"
#include "publish/pages/kit_line.h"
#include "publish/pages/text.h"
#include "publish/pictures/profile.h"

namespace flattail::publish {

namespace {

using scenario::InnerMaterial;
using scenario::Model;
using scenario::Setup;
using Lines = std::vector<std::string>;

// Chance of rain from which wet roads are worth a line (assumption).
constexpr double kWetWorthSaying = 0.3;
// A rough stretch that loses this much height is met at speed (assumption).
constexpr double kDescent_m = 15.0;
// A descent on which rims get hot (assumption).
constexpr double kHotRim_m = 100.0;
constexpr std::size_t kMostStretches = 5;
// A rough descent that can be rolled through without braking (assumption).
constexpr double kShort_km = 2.0;

// What of a setup decides the words of a brief.
struct Traits {
    bool tubes = false, sealant = false, latex = false, thin = false;
};

const scenario::Inner& inner_of(const Model& model, const scenario::Wheel& wheel) {
    return model.inners[static_cast<std::size_t>(wheel.inner)];
}

Traits find_traits(const Model& model, const Setup& setup) {
    Traits traits;
    for (const scenario::Wheel& wheel : setup.wheels) {
        const scenario::Inner& inner = inner_of(model, wheel);
        const bool sealant = inner.kind == scenario::InnerKind::kSealant;
        traits.sealant |= sealant;
        traits.tubes |= !sealant;
        traits.latex |= inner.material == InnerMaterial::kLatex;
        traits.thin |= inner.material == InnerMaterial::kPlastic;
    }
    traits.thin |= traits.latex;
    return traits;
}

bool has_cartridges(const Setup& setup) { return setup.kit.inflations() > 0; }

// A flat can be mended on the road.
bool can_mend(const Model& model, const Setup& setup) {
    return model.repair.can_repair && setup.kit.tubes > 0 &&
           (has_cartridges(setup) || setup.kit.has_pump());
}

bool carries_butyl_with_latex(const Model& model, const Setup& setup,
                              const Traits& traits) {
    const int spare = setup.kit.spare_inner;
    return traits.latex && has_cartridges(setup) && spare >= 0 &&
           model.inners[static_cast<std::size_t>(spare)].material ==
               InnerMaterial::kButyl;
}

bool has_help(const Model& model) { return model.repair.help != scenario::Help::kNone; }

// "tube" says of what it is.
std::string name_item(const Model& model, const Setup& setup, const std::string& item) {
    const int spare = setup.kit.spare_inner;
    if (item != "tube" || spare < 0) return item;
    return model.inners[static_cast<std::size_t>(spare)].name + " tube";
}

// "tube, tube, levers" -> "2 x butyl tube, levers".
std::string gather_items(const Model& model, const Setup& setup,
                         const std::string& text) {
    std::vector<std::pair<std::string, int>> items;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find(", ", at), text.size());
        const std::string item = name_item(model, setup, text.substr(at, end - at));
        const auto known = std::find_if(items.begin(), items.end(),
                                        [&](const auto& i) { return i.first == item; });
        if (known == items.end()) {
            items.emplace_back(item, 1);
        } else {
            ++known->second;
        }
        at = end + 2;
    }
    Lines words;
    for (const auto& [item, count] : items) {
        words.push_back(count == 1 ? item : fmt::format("{} x {}", count, item));
    }
    return fmt::format("{}", fmt::join(words, ", "));
}

BriefBlock make_carry(const Model& model, const Setup& setup, const Traits& traits) {
    BriefBlock block{"CARRY", {}};
    const scenario::Kit& kit = setup.kit;
    if (kit.tubes == 0 && kit.inflations() == 0 && !kit.has_pump()) {
        block.lines.push_back(
            model.repair.can_repair
                ? "Nothing to mend a flat with: a flat that does not seal ends the race."
                : "Nothing: a flat ends the race.");
        return block;
    }
    if (!model.repair.can_repair) {
        block.lines.push_back(
            "You do not repair: a flat that does not seal ends the race "
            "unless help comes. Carried, by weight: " +
            gather_items(model, setup, clean_line(kit.text)) + ".");
        return block;
    }
    block.lines.push_back(gather_items(model, setup, clean_line(kit.text)) + ".");
    if (kit.tubes > 0) {
        block.lines.push_back("Valves must be long enough for your rims: try one.");
    }
    if (carries_butyl_with_latex(model, setup, traits)) {
        block.lines.push_back(
            "Butyl spares on purpose: CO2 leaks out of latex during the race.");
    }
    if (has_cartridges(setup)) {
        block.lines.push_back("An inflator that you have used before, and a glove.");
    }
    return block;
}

BriefBlock make_check(const Model& model, const Setup& setup, const Traits& traits) {
    BriefBlock block{"CHECK " + name_day_before(model.race.date, 1), {}};
    if (model.race.date.empty()) block.title = "CHECK the day before";
    if (traits.tubes) {
        block.lines.push_back("No tube under the bead: both sides, all round.");
    }
    if (traits.sealant) {
        block.lines.push_back(
            "Sealant not older than 3 months; bead, valve and valve core dry and tight.");
    }
    block.lines.push_back(
        "Cuts picked clean; both wheels turn free and are clamped tight; brakes work.");
    if (setup.rim.brake == scenario::Brake::kRim) {
        block.lines.push_back("Brake pads meet the rim and never the tyre.");
    }
    if (can_mend(model, setup)) {
        block.lines.push_back(
            "Practise one rear change with what you carry, on wheels you do not race.");
    }
    if (traits.latex) {
        block.lines.push_back(
            "Latex loses air overnight: pump on race morning if you can.");
    }
    block.lines.push_back("No first ride on fresh tyres or tubes down a fast descent.");
    return block;
}

void add_mending(const Setup& setup, const Traits& traits, Lines& lines) {
    if (traits.sealant) {
        lines.push_back(
            setup.kit.plugs > 0
                ? "Sealant spraying: turn the hole down and wait; then a plug. If that "
                  "does not hold, take out the valve and fit a tube."
                : "Sealant spraying: turn the hole down and wait. If that does not hold, "
                  "take out the valve and fit a tube.");
    } else {
        lines.push_back(
            "A tyre that goes soft slowly: filling it up once may see you to the "
            "finish.");
    }
    lines.push_back("Find what made the hole and take it out before a new tube goes in.");
    if (setup.rim.brake == scenario::Brake::kRim) {
        lines.push_back("Let a hot rim cool before a tube touches it.");
    }
    if (!has_cartridges(setup)) return;
    lines.push_back("A cartridge freezes skin: hold it with the glove.");
    if (traits.sealant) {
        lines.push_back(
            setup.kit.has_pump()
                ? "CO2 can spoil sealant: valve at the top, and air from the pump after "
                  "it."
                : "CO2 can spoil sealant: valve at the top, new sealant after the race.");
    }
}

BriefBlock make_if_flat(const Model& model, const Setup& setup, const Traits& traits) {
    BriefBlock block{"IF YOU FLAT", {}};
    block.lines.push_back(
        "Ease off in a straight line, no hard braking, stop off the road; the helmet "
        "stays "
        "fastened. Do not ride on a flat rim.");
    const bool can = can_mend(model, setup);
    if (can) add_mending(setup, traits, block.lines);
    if (!can && traits.sealant) {
        block.lines.push_back(
            "Sealant may close a cut by itself: turn the hole down and wait.");
    }
    if (has_help(model)) {
        block.lines.push_back(
            can ? "When it cannot be mended: wait for the officials where they see you."
                : "Wait for the officials where they see you.");
    }
    block.lines.push_back(
        "Take your rubbish with you. Help from anyone but officials can disqualify you.");
    return block;
}

std::string say_place(const RoughStretch& stretch) {
    return fmt::format("km {:.1f}-{:.1f}", stretch.from_km, stretch.to_km);
}

const char* say_how_to_ride(const RoughStretch& stretch) {
    if (stretch.drop_m < kDescent_m && !stretch.is_capped) {
        return ": hold a straight line, look for holes and glass.";
    }
    return stretch.to_km - stretch.from_km <= kShort_km
               ? ": brake before it, not in it."
               : ": slow down before it, brake where it is smooth.";
}

Lines list_stretches(const Model& model) {
    const std::vector<RoughStretch> all = list_rough_stretches(*model.course);
    Lines lines;
    for (std::size_t i = 0; i < std::min(all.size(), kMostStretches); ++i) {
        const bool is_descent = all[i].drop_m >= kDescent_m;
        const std::string name = shorten_end(clean_line(all[i].name), 36);
        std::string text =
            fmt::format("{} {}{}", is_descent ? "Rough descent" : "Rough road",
                        say_place(all[i]), name.empty() ? "" : ", " + name);
        lines.push_back(text + say_how_to_ride(all[i]));
    }
    if (all.size() > kMostStretches) {
        lines.push_back(fmt::format("{} more rough stretches: see the course list.",
                                    all.size() - kMostStretches));
    }
    return lines;
}

double find_rain_chance(const Model& model) {
    double chance = 0.0;
    for (const scenario::ForecastRow& row : model.weather.rows) {
        chance = std::max(chance, row.rain_chance);
    }
    return chance;
}

bool has_long_descent(const Model& model) {
    return course::describe_course(*model.course).longest_descent.drop_m >= kHotRim_m;
}

BriefBlock make_take_care(const Findings& findings, const Model& model,
                          const Setup& setup) {
    BriefBlock block{"TAKE CARE", list_stretches(model)};
    if (find_rain_chance(model) >= kWetWorthSaying) {
        block.lines.push_back(
            "Wet roads: brake earlier, corner upright; flats are more likely.");
    }
    if (setup.rim.brake == scenario::Brake::kRim && has_long_descent(model)) {
        block.lines.push_back(
            "Long descents heat rims: brake hard and short, then let them cool.");
    }
    for (const std::string& caution : setup.cautions) {
        block.lines.push_back("This setup: " + clean_line(caution) + ".");
    }
    for (const std::string& caution : findings.cautions) {
        block.lines.push_back(clean_line(caution) + ".");
    }
    block.lines.push_back(
        "Never above the lower of the limits marked on tyre and rim (hookless rims: "
        "never "
        "above 5 bar, 72 psi), nor below the maker's minimum.");
    return block;
}

bool is_default(const Model& model, InputId id) {
    return id.is_set() && model.input(id).origin != Origin::kStated;
}

// What decides the answer and was not measured by anyone here.
std::string list_defaults(const Model& model, int advised) {
    Lines words;
    const auto add = [&](InputId id, const char* word) {
        if (is_default(model, id)) words.emplace_back(word);
    };
    add(model.flats.training_per_m, "how often you flat in training");
    add(model.rider.drag_area_m2, "your drag area");
    if (advised >= 0) {
        const Setup& setup = model.setups[static_cast<std::size_t>(advised)];
        add(inner_of(model, setup.wheels[0]).crr_change, "how fast these tubes roll");
    }
    add(model.road.crr[1], "how rough the road is");
    add(model.repair.median_s, "how long your repair takes");
    if (words.empty()) return "";
    return fmt::format("Usual values in place of your own: {}.", fmt::join(words, "; "));
}

}  // namespace

void add_care(const Findings& findings, const Model& model, int advised,
              BriefContent& content) {
    const Setup& setup = model.setups[static_cast<std::size_t>(advised)];
    const Traits traits = find_traits(model, setup);
    content.blocks.push_back(make_carry(model, setup, traits));
    std::string more = describe_kit(findings, advised);
    if (!more.empty()) {
        more.front() = static_cast<char>(std::toupper(more.front()));
        content.blocks.back().lines.push_back(clean_line(more));
    }
    content.blocks.push_back(make_check(model, setup, traits));
    content.blocks.push_back(make_if_flat(model, setup, traits));
    content.blocks.push_back(make_take_care(findings, model, setup));
}

void add_turns(const Lines& turns, BriefContent& content) {
    if (turns.empty()) return;
    BriefBlock block{"CHANGES THE ADVICE", {}};
    for (const std::string& turn : turns) block.lines.push_back(clean_line(turn));
    content.blocks.push_back(std::move(block));
}

void add_doubts(const Findings& findings, const Model& model,
                const std::vector<std::string>& names, BriefContent& content) {
    BriefBlock ruled{"RULED OUT", {}};
    for (std::size_t i = 0; i < model.setups.size(); ++i) {
        if (!findings.setups[i].vetoed) continue;
        for (const std::string& caution : findings.setups[i].cautions) {
            ruled.lines.push_back(names[i] + ": " + clean_line(caution) + ".");
        }
    }
    if (!ruled.lines.empty()) content.blocks.push_back(std::move(ruled));
    BriefBlock block{"NOT MEASURED", {}};
    const int advised = content.shown.empty() ? -1 : content.shown.front();
    const std::string defaults = list_defaults(model, advised);
    if (!defaults.empty()) block.lines.push_back(defaults);
    block.lines.push_back(
        "How often one kind of tube is cut against another: no rate was ever published; "
        "a wide range stands for it.");
    content.blocks.push_back(std::move(block));
}

}  // namespace flattail::publish
