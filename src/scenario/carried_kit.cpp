#include "scenario/carried_kit.h"

#include <algorithm>
#include <functional>

namespace flattail::scenario {

namespace {

void change_count(int& held, int count) { held = std::max(held + count, 0); }

void change_cartridges(std::vector<double>& held, double gas_kg, int count) {
    for (; count > 0; --count) held.push_back(gas_kg);
    for (; count < 0; ++count) {
        const auto found = std::find(held.begin(), held.end(), gas_kg);
        if (found != held.end()) held.erase(found);
    }
    std::sort(held.begin(), held.end(), std::greater<>());
}

void change_pump(Pump& held, Pump pump, int count) {
    if (count > 0) held = std::max(held, pump);
    if (count < 0) held = Pump::kNone;
}

}  // namespace

void change_kit(Kit& kit, const KitItem& item, int count) {
    kit.mass_kg = std::max(kit.mass_kg + count * item.each_kg, 0.0);
    switch (item.kind) {
        case KitKind::kTube:
            return change_count(kit.tubes, count);
        case KitKind::kCartridge:
            return change_cartridges(kit.cartridge_kg, item.gas_kg, count);
        case KitKind::kPump:
            return change_pump(kit.pump, item.pump, count);
        case KitKind::kPlug:
            return change_count(kit.plugs, count);
        case KitKind::kPatch:
            return change_count(kit.patches, count);
        case KitKind::kBoot:
            return change_count(kit.boots, count);
        case KitKind::kSealantCan:
            return change_count(kit.sealant_cans, count);
        case KitKind::kLevers:
            kit.levers = count > 0;
            return;
        case KitKind::kValveExtender:
            kit.valve_extender = count > 0;
            return;
        case KitKind::kCoreTool:
            kit.core_tool = count > 0;
            return;
        case KitKind::kDiscAdaptor:
            kit.disc_adaptor = count > 0;
            return;
        case KitKind::kWeight:
            return;
    }
}

}  // namespace flattail::scenario
