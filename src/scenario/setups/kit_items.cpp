#include "scenario/setups/kit_items.h"

#include <array>

namespace flattail::scenario {

namespace {

struct KnownItem {
    const char* word;
    const char* plural;
    KitKind kind;
    double grams;
    Pump pump = Pump::kNone;
};

// Grams: assumptions, what common parts weigh on a kitchen scale; a kit may state its
// own. Wrong by half, a kit is a second faster or slower.
constexpr std::array<KnownItem, 18> kItems = {{
    {"cartridge", "cartridges", KitKind::kCartridge, 0},
    {"pump", "pumps", KitKind::kPump, 220, Pump::kFrame},
    {"frame pump", "frame pumps", KitKind::kPump, 220, Pump::kFrame},
    {"mini pump", "mini pumps", KitKind::kPump, 110, Pump::kMini},
    {"small pump", "small pumps", KitKind::kPump, 110, Pump::kMini},
    {"plug", "plugs", KitKind::kPlug, 10},
    {"patch", "patches", KitKind::kPatch, 4},
    {"patch kit", "patch kits", KitKind::kPatch, 25},
    {"boot", "boots", KitKind::kBoot, 8},
    {"sealant can", "sealant cans", KitKind::kSealantCan, 120},
    {"levers", "lever", KitKind::kLevers, 25},
    {"valve extender", "valve extenders", KitKind::kValveExtender, 6},
    {"core tool", "core tools", KitKind::kCoreTool, 6},
    {"disc adaptor", "disc adaptors", KitKind::kDiscAdaptor, 15},
    {"inflator", "inflators", KitKind::kWeight, 35},
    {"glove", "gloves", KitKind::kWeight, 15},
    {"multi tool", "multi tools", KitKind::kWeight, 120},
    {"tool", "tools", KitKind::kWeight, 120},
}};

}  // namespace

std::optional<KitItem> find_kit_item(const std::string& words) {
    for (const KnownItem& known : kItems) {
        if (words != known.word && words != known.plural) continue;
        KitItem item;
        item.kind = known.kind;
        item.words = known.word;
        item.each_kg = known.grams * 1e-3;
        item.pump = known.pump;
        return item;
    }
    return std::nullopt;
}

double find_tube_mass_kg(InnerMaterial material) {
    switch (material) {
        case InnerMaterial::kLatex:
            return 0.080;
        case InnerMaterial::kPlastic:
            return 0.040;
        case InnerMaterial::kButyl:
        case InnerMaterial::kNone:
            break;
    }
    return 0.105;
}

double find_cartridge_mass_kg(double gas_kg) {
    // 16 g of gas come in about 58 g, 25 g in about 95 g.
    constexpr double kGrossOverGas = 3.7;
    return kGrossOverGas * gas_kg;
}

std::vector<std::string> known_kit_words() {
    std::vector<std::string> words = {"tube", "latex tube", "2 tubes", "cartridge 16 g"};
    for (const KnownItem& known : kItems) {
        if (known.kind != KitKind::kCartridge) words.emplace_back(known.word);
    }
    return words;
}

}  // namespace flattail::scenario
