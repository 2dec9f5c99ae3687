// What a rider carries against flats, as the ride uses it.
#pragma once

#include <string>
#include <vector>

namespace flattail::scenario {

/// None; a small pump that tires the arms before the tyre is hard; one as long as the
/// frame that reaches any pressure.
enum class Pump { kNone, kMini, kFrame };

// Used where nobody carries the thing and the question is what it would bring; the middle
// of the defaults of repair.plug_holds and repair.boot_saves. Assumptions.
inline constexpr double kPlugHolds = 0.75;
inline constexpr double kBootSaves = 0.6;

/// The kinds of things a kit may hold.
enum class KitKind {
    kTube,
    kCartridge,
    kPump,
    kPlug,
    kPatch,
    kBoot,
    kSealantCan,
    kLevers,
    kValveExtender,
    kCoreTool,
    kDiscAdaptor,
    kWeight  // inflator, glove, tool: carried for comfort, counted as mass
};

/// One line of a kit.
struct KitItem {
    KitKind kind = KitKind::kWeight;
    std::string words;  // one of them, in the user's words: "latex tube"
    int count = 1;
    double each_kg = 0.0;
    double gas_kg = 0.0;  // cartridges
    Pump pump = Pump::kNone;
};

struct Kit {
    int tubes = 1;
    int spare_inner =
        -1;  // what a spare is, index into Model::inners; -1: like the first
    double valve_m = 0.0;  // length of the spares' valves; 0: not stated, taken to fit
    std::vector<double> cartridge_kg = {0.016};  // gas, the largest first
    Pump pump = Pump::kNone;
    int plugs = 0;
    int patches = 0;
    int boots = 0;
    int sealant_cans = 0;
    bool levers = true;
    bool valve_extender = false;
    bool core_tool = false;
    bool disc_adaptor = false;
    double mass_kg = 0.0;  // of everything carried
    std::vector<KitItem> items;
    std::string text;  // as the user listed it

    int inflations() const { return static_cast<int>(cartridge_kg.size()); }
    bool has_pump() const { return pump != Pump::kNone; }
};

/// Adds `count` of an item to what a kit holds, or takes it away with a negative count.
/// Errors:  none; nothing falls below zero
void change_kit(Kit& kit, const KitItem& item, int count);

}  // namespace flattail::scenario
