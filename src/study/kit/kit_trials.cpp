#include "study/kit/kit_trials.h"

#include <algorithm>

#include "scenario/setups/kit.h"
#include "scenario/setups/kit_items.h"

namespace flattail::study {

namespace {

using scenario::KitItem;
using scenario::KitKind;

constexpr double kUsualGas_kg = 0.016;

// The kit changed; its weight is left as it was, so that weight and mending stay apart.
scenario::Setup change(const scenario::Setup& setup, const std::vector<KitItem>& items,
                       int count) {
    scenario::Setup changed = setup;
    for (const KitItem& item : items) scenario::change_kit(changed.kit, item, count);
    changed.kit.mass_kg = setup.kit.mass_kg;
    for (scenario::Wheel& wheel : changed.wheels) scenario::fit_kit(changed.kit, wheel);
    return changed;
}

int count_carried(const scenario::Kit& kit, const KitItem& item) {
    int count = 0;
    for (const KitItem& held : kit.items) {
        if (held.words == item.words) count += held.count;
    }
    return count;
}

// Levers and the like work or do not: all of them go at once.
bool is_one_tool(KitKind kind) {
    return kind == KitKind::kLevers || kind == KitKind::kPump ||
           kind == KitKind::kValveExtender || kind == KitKind::kCoreTool ||
           kind == KitKind::kDiscAdaptor;
}

void add_removals(const scenario::Setup& setup, std::vector<KitTrial>& trials) {
    for (const KitItem& item : setup.kit.items) {
        const bool is_known =
            std::any_of(trials.begin(), trials.end(),
                        [&](const KitTrial& trial) { return trial.item == item.words; });
        if (is_known) continue;
        KitTrial trial;
        trial.item = item.words;
        trial.carried = count_carried(setup.kit, item);
        // A patch kit goes as a whole.
        const int pieces = item.words == "patch kit" ? setup.kit.patches : 1;
        trial.weighs_kg = item.each_kg * (is_one_tool(item.kind) ? trial.carried : 1);
        trial.changed = change(setup, {item}, -pieces);
        trials.push_back(std::move(trial));
    }
}

KitItem make_cartridge(const scenario::Kit& kit) {
    KitItem cartridge = *scenario::find_kit_item("cartridge");
    cartridge.gas_kg = kit.cartridge_kg.empty() ? kUsualGas_kg : kit.cartridge_kg.back();
    cartridge.each_kg = scenario::find_cartridge_mass_kg(cartridge.gas_kg);
    return cartridge;
}

KitItem make_tube(const scenario::Model& model, const scenario::Kit& kit) {
    KitItem tube;
    tube.kind = KitKind::kTube;
    const bool is_known = kit.spare_inner >= 0;
    const auto inner = static_cast<std::size_t>(std::max(kit.spare_inner, 0));
    tube.each_kg = scenario::find_tube_mass_kg(
        is_known ? model.inners[inner].material : scenario::InnerMaterial::kButyl);
    for (const KitItem& held : kit.items) {
        if (held.kind == KitKind::kTube) tube.each_kg = held.each_kg;
    }
    return tube;
}

void add_one_more(const scenario::Setup& setup, const std::string& words, int carried,
                  const std::vector<KitItem>& items, std::vector<KitTrial>& trials) {
    KitTrial trial;
    trial.item = words;
    trial.carried = carried;
    trial.is_added = true;
    for (const KitItem& item : items) trial.weighs_kg += item.each_kg;
    trial.changed = change(setup, items, 1);
    trials.push_back(std::move(trial));
}

bool is_tubeless(const scenario::Model& model, const scenario::Setup& setup) {
    return std::any_of(
        setup.wheels.begin(), setup.wheels.end(), [&](const scenario::Wheel& wheel) {
            return model.inners[static_cast<std::size_t>(wheel.inner)].kind ==
                   scenario::InnerKind::kSealant;
        });
}

void add_additions(const scenario::Model& model, const scenario::Setup& setup,
                   std::vector<KitTrial>& trials) {
    const scenario::Kit& kit = setup.kit;
    const KitItem tube = make_tube(model, kit);
    const KitItem cartridge = make_cartridge(kit);
    const bool tube_has_air = kit.has_pump() || kit.inflations() > kit.tubes;
    if (tube_has_air) {
        add_one_more(setup, "tube", kit.tubes, {tube}, trials);
    } else {
        add_one_more(setup, "tube with a cartridge", kit.tubes, {tube, cartridge},
                     trials);
    }
    add_one_more(setup, "cartridge", kit.inflations(), {cartridge}, trials);
    if (kit.boots == 0) {
        add_one_more(setup, "boot", 0, {*scenario::find_kit_item("boot")}, trials);
    }
    if (kit.plugs == 0 && is_tubeless(model, setup)) {
        add_one_more(setup, "plug with a cartridge", 0,
                     {*scenario::find_kit_item("plug"), cartridge}, trials);
    }
}

}  // namespace

std::vector<KitTrial> list_kit_trials(const scenario::Model& model,
                                      const scenario::Setup& setup) {
    std::vector<KitTrial> trials;
    add_removals(setup, trials);
    // Who does not repair, or has a car behind, is not helped by more.
    if (model.repair.can_repair && model.repair.help != scenario::Help::kCar) {
        add_additions(model, setup, trials);
    }
    return trials;
}

}  // namespace flattail::study
