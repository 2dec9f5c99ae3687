// Help from others, and what the things in a kit do.
#include <fmt/format.h>

#include <algorithm>

#include "chance/make_distribution.h"
#include "scenario/tables/read_tables.h"
#include "scenario/values/defaults.h"

namespace flattail::scenario {

namespace {

struct HelpKey {
    const char* key;
    Help help;
    const char* hint;
};

constexpr HelpKey kHelpKeys[] = {
    {"help_chance", Help::kOfficials, "write help = \"officials\", or leave it out"},
    {"help_wait", Help::kOfficials, "write help = \"officials\", or leave it out"},
    {"car_change", Help::kCar, "write help = \"following car\", or leave it out"},
};

void refuse_idle_help(Table& table, Help help) {
    static constexpr const char* kThere[] = {"there is no help", "help is by officials",
                                             "help is a following car"};
    for (const HelpKey& known : kHelpKeys) {
        if (known.help == help || !table.find(known.key)) continue;
        table.add_error(*table.find(known.key),
                        fmt::format("repair.{} is stated, but {}", known.key,
                                    kThere[static_cast<std::size_t>(help)]),
                        known.hint);
    }
}

bool carries(const Model& model, int Kit::*count) {
    return std::any_of(model.setups.begin(), model.setups.end(),
                       [&](const Setup& setup) { return setup.kit.*count > 0; });
}

// Takes the values of one thing when somebody carries it; else stating them is a mistake.
class ThingReader {
  public:
    ThingReader(Draft& draft, Table& table) : draft_(draft), table_(table) {}

    void begin(bool is_carried, const char* thing) {
        is_carried_ = is_carried;
        thing_ = thing;
    }
    void take_input(const char* name, InputId& out) {
        if (refuse(name)) return;
        out = scenario::take_input(draft_, table_, find_spec(name));
    }
    void take_setting(const char* name, double& out) {
        if (refuse(name)) return;
        out = scenario::take_setting(draft_, table_, find_spec(name));
    }

  private:
    bool refuse(const char* name) {
        const Node* node = table_.find(key_of(find_spec(name)));
        if (is_carried_) return false;
        if (node) {
            table_.add_error(
                *node, fmt::format("{} is stated, but no setup carries {}", name, thing_),
                "add it to a kit, or leave this out");
        }
        return true;
    }

    using Node = input::Node;
    Draft& draft_;
    Table& table_;
    bool is_carried_ = false;
    const char* thing_ = "";
};

bool carries_pump(const Model& model, Pump pump) {
    return std::any_of(model.setups.begin(), model.setups.end(),
                       [&](const Setup& setup) { return setup.kit.pump == pump; });
}

bool goes_bare(const Model& model) {
    return std::any_of(model.setups.begin(), model.setups.end(), [](const Setup& setup) {
        return setup.kit.tubes > 0 && !setup.kit.levers;
    });
}

}  // namespace

void read_help(Draft& draft, Table& table) {
    static const Words kHelp = {"none", "officials", "following car"};
    Repair& repair = draft.model.repair;
    repair.help = static_cast<Help>(table.find_word("help", kHelp).value_or(0));
    if (!table.find("help")) {
        note_choice(draft, "repair.help", "help from others", "none", Origin::kAssumption,
                    "assumption");
    }
    refuse_idle_help(table, repair.help);
    if (repair.help == Help::kOfficials) {
        repair.help_reached = take_input(draft, table, find_spec("repair.help_chance"));
        repair.help_wait_s = take_input(draft, table, find_spec("repair.help_wait"));
    } else if (repair.help == Help::kCar) {
        repair.help_wait_s = take_input(draft, table, find_spec("repair.car_change"));
    }
}

void read_mending(Draft& draft, Table& table) {
    const Model& model = draft.model;
    Repair& repair = draft.model.repair;
    ThingReader reader(draft, table);
    reader.begin(carries(model, &Kit::plugs), "a plug");
    reader.take_input("repair.plug_holds", repair.plug_holds);
    reader.take_setting("repair.plugging", repair.plug_s);
    reader.begin(carries(model, &Kit::patches), "patches");
    reader.take_input("repair.patch_holds", repair.patch_holds);
    reader.take_setting("repair.patching", repair.patch_s);
    reader.begin(carries(model, &Kit::sealant_cans), "a sealant can");
    reader.take_input("repair.can_closes", repair.can_closes);
    reader.take_setting("repair.canning", repair.can_s);
    reader.begin(carries(model, &Kit::boots), "a boot");
    reader.take_input("repair.boot_saves", repair.boot_saves);
    reader.take_setting("repair.booting", repair.boot_s);
    reader.begin(carries_pump(model, Pump::kMini), "a mini pump");
    reader.take_setting("repair.mini_pumping", repair.mini_pump_s);
    reader.take_setting("repair.mini_pump_reaches", repair.mini_pump_pa);
    reader.begin(carries_pump(model, Pump::kFrame), "a frame pump");
    reader.take_setting("repair.pumping", repair.frame_pump_s);
    reader.begin(goes_bare(model), "tubes without levers");
    reader.take_setting("repair.without_levers", repair.bare_hands_ratio);
}

}  // namespace flattail::scenario
