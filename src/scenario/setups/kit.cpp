#include "scenario/setups/kit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "input/units/quantity.h"
#include "scenario/setups/inners.h"
#include "scenario/setups/kit_items.h"

namespace flattail::scenario {

namespace {

using input::Dimension;
using input::Node;

constexpr int kMostOfOne = 20;
constexpr const char* kUsualSpare = "butyl";
constexpr const char* kHint =
    "write words like \"tube\", \"latex tube\", \"2 tubes\", \"cartridge 16 g\", "
    "\"mini pump\", \"levers\", \"plug\", \"boot\", \"sealant can\"";
constexpr double kUsualGas_kg = 0.016;
// A patch kit holds this many (common practice).
constexpr int kPatchesInKit = 6;

// What an inflator needs to grip beyond the rim, and what an extender adds. Common
// practice; makers' charts ask for 15 to 20 mm and sell extenders of 20 to 50 mm.
constexpr double kValveBeyondRim_m = 0.015;
constexpr double kExtender_m = 0.030;

Spec make_kit_spec(const char* name, Dimension dimension, const Unit& unit, double least,
                   double most, const char* advice) {
    return {name,  name, dimension, unit, Scale::kPositive, Layer::kKnowledge,
            least, most, advice};
}

struct Counted {
    int count = 1;
    std::string words;  // lower case, without the count
};

// "2 tubes", "2 x tube" and "tube".
Counted split_count(const std::string& text) {
    Counted item;
    item.words = fold_case(text);
    const std::size_t digits = item.words.find_first_not_of("0123456789");
    if (digits == 0 || digits == std::string::npos || digits > 2) return item;
    item.count = std::stoi(item.words.substr(0, digits));
    item.words.erase(0, digits);
    const auto drop_blanks = [&] {
        const std::size_t first = item.words.find_first_not_of(' ');
        item.words.erase(0, std::min(first, item.words.size()));
    };
    drop_blanks();
    if (item.words.rfind("x ", 0) == 0) item.words.erase(0, 1);
    drop_blanks();
    return item;
}

bool ends_with(const std::string& text, const std::string& end) {
    return text.size() >= end.size() &&
           text.compare(text.size() - end.size(), end.size(), end) == 0;
}

// "butyl tube" -> "butyl", "tubes" -> "", anything else -> nothing.
std::optional<std::string> read_tube_word(const std::string& words) {
    for (const std::string end : {"tubes", "tube"}) {
        if (words == end) return std::string();
        if (ends_with(words, ' ' + end)) {
            return words.substr(0, words.size() - end.size() - 1);
        }
    }
    return std::nullopt;
}

// What one entry of the list says beside its words.
struct Stated {
    std::optional<double> valve_m;
    std::optional<double> mass_kg;
};

class KitReader {
  public:
    KitReader(const Parts& parts, base::ProblemList& problems)
        : parts_(parts), problems_(problems) {
        listed.kit = empty_kit();
    }

    static Kit empty_kit() {
        Kit kit;
        kit.tubes = 0;
        kit.cartridge_kg.clear();
        kit.levers = false;
        return kit;
    }

    void read_item(const Node& node) {
        if (node.is(input::NodeKind::kTable)) return read_table(node);
        if (!node.is(input::NodeKind::kString)) {
            return fail(node,
                        fmt::format("kit holds {}, not a word", describe_value(node)));
        }
        read_words(node, node.text, {});
    }

    // The kit of those who list none.
    void take_usual() {
        KitItem tube = make_tube(kUsualSpare);
        add(tube);
        KitItem cartridge = *find_kit_item("cartridge");
        fill_cartridge(cartridge, kUsualGas_kg);
        add(cartridge);
        add(*find_kit_item("levers"));
        listed.spare = kUsualSpare;
        listed.kit.text = "tube, cartridge 16 g, levers";
    }

    // Who carries a tube carries levers, unless the list says "no levers".
    void settle_levers() {
        if (listed.kit.tubes > 0 && !listed.kit.levers && !no_levers_) {
            add(*find_kit_item("levers"));
        }
    }

    ListedKit listed;

  private:
    void read_table(const Node& node) {
        static const Spec kValve =
            make_kit_spec("kit.valve", Dimension::kLength, kMillimetre, 20, 150,
                          "write the length of its valve, like \"60 mm\"");
        static const Spec kWeighs =
            make_kit_spec("kit.weighs", Dimension::kMass, kGram, 1, 2000,
                          "write what one weighs, like \"105 g\"");
        Table table(&node, "kit", problems_);
        const Node* words = table.find("item");
        Stated stated;
        stated.valve_m = table.find_value(kValve);
        stated.mass_kg = table.find_value(kWeighs);
        const auto text = table.find_text("item");
        if (!words) {
            problems_.add_error(table.place(), "kit: a table without an item",
                                "write { item = \"tube\", valve = \"60 mm\" }");
        }
        table.reject_unknown_keys();
        if (text) read_words(node, *text, stated);
    }

    void read_words(const Node& node, const std::string& text, const Stated& stated) {
        listed.kit.text += (listed.kit.text.empty() ? "" : ", ") + text;
        if (fold_case(text) == "no levers") {
            no_levers_ = true;
            return;
        }
        const Counted counted = split_count(text);
        if (counted.count < 1 || counted.count > kMostOfOne) {
            return fail(node, fmt::format("kit: \"{}\" is not 1 to {} of a thing", text,
                                          kMostOfOne));
        }
        auto item = find_item(node, counted.words);
        if (!item) return;
        item->count = counted.count;
        if (stated.mass_kg) item->each_kg = *stated.mass_kg;
        if (stated.valve_m && item->kind != KitKind::kTube) {
            return fail(node, fmt::format("kit: \"{}\" has no valve", text));
        }
        if (stated.valve_m) take_valve(node, *stated.valve_m);
        add(*item);
    }

    std::optional<KitItem> find_item(const Node& node, const std::string& words) {
        if (const auto tube = read_tube_word(words)) return find_tube(node, *tube);
        if (words.rfind("cartridge", 0) == 0) return find_cartridge(node, words);
        const auto item = find_kit_item(words);
        if (!item) fail(node, fmt::format("kit: \"{}\" is not known", words));
        return item;
    }

    std::optional<KitItem> find_tube(const Node& node, const std::string& word) {
        const auto name = parts_.find_inner_name(word.empty() ? kUsualSpare : word);
        if (!name) {
            fail(node, fmt::format("kit: no inner is called \"{}\"", word));
            return std::nullopt;
        }
        if (parts_.find_kind(*name) == InnerKind::kSealant) {
            fail(node, fmt::format("kit: \"{}\" is no tube to carry", word));
            return std::nullopt;
        }
        if (!listed.spare.empty() && listed.spare != *name) {
            fail(node, "kit: spare tubes of two kinds");
            return std::nullopt;
        }
        listed.spare = *name;
        return make_tube(*name);
    }

    KitItem make_tube(const std::string& name) const {
        KitItem item;
        item.kind = KitKind::kTube;
        item.words = name + " tube";
        item.each_kg = find_tube_mass_kg(parts_.find_material(name));
        return item;
    }

    static void fill_cartridge(KitItem& item, double gas_kg) {
        item.gas_kg = gas_kg;
        item.each_kg = find_cartridge_mass_kg(gas_kg);
        item.words = fmt::format("cartridge {} g", write_number(gas_kg * 1000.0));
    }

    // "cartridge", "cartridges 25 g".
    std::optional<KitItem> find_cartridge(const Node& node, const std::string& words) {
        const std::size_t blank = words.find(' ');
        auto item = find_kit_item(words.substr(0, blank));
        if (!item) {
            fail(node, fmt::format("kit: \"{}\" is not known", words));
            return std::nullopt;
        }
        double gas_kg = kUsualGas_kg;
        if (blank != std::string::npos) {
            const auto stated =
                input::parse_quantity(words.substr(blank + 1), Dimension::kMass);
            if (!stated || *stated < 0.008 || *stated > 0.1) {
                fail(node, fmt::format("kit: \"{}\" is no cartridge of 8 to 100 g of gas",
                                       words));
                return std::nullopt;
            }
            gas_kg = *stated;
        }
        fill_cartridge(*item, gas_kg);
        return item;
    }

    void take_valve(const Node& node, double valve_m) {
        double& known = listed.kit.valve_m;
        if (known > 0.0 && known != valve_m) {
            return fail(node, "kit: spare tubes with valves of two lengths");
        }
        known = valve_m;
    }

    void add(const KitItem& item) {
        // A kit of patches counts by its patches.
        if (item.words == "patch kit") {
            KitItem patches = item;
            patches.each_kg /= kPatchesInKit;
            change_kit(listed.kit, patches, item.count * kPatchesInKit);
        } else {
            change_kit(listed.kit, item, item.count);
        }
        listed.kit.items.push_back(item);
    }

    void fail(const Node& node, const std::string& what) {
        problems_.add_error(node.place, what, kHint);
    }

    const Parts& parts_;
    base::ProblemList& problems_;
    bool no_levers_ = false;
};

std::string count_things(int count, const char* one, const char* many) {
    return count == 1 ? fmt::format("1 {}", one) : fmt::format("{} {}", count, many);
}

}  // namespace

ListedKit read_kit(const Node* node, const Parts& parts, base::ProblemList& problems) {
    KitReader reader(parts, problems);
    if (!node) {
        reader.take_usual();
    } else if (!node->is(input::NodeKind::kArray)) {
        problems.add_error(node->place, "kit is no list", kHint);
    } else {
        for (const Node& item : node->items) reader.read_item(item);
        reader.settle_levers();
        if (reader.listed.kit.text.empty()) reader.listed.kit.text = "nothing";
    }
    return std::move(reader.listed);
}

std::vector<std::string> list_missing(const Kit& least, const Kit& kit) {
    std::vector<std::string> missing;
    const auto count = [&](int wanted, int held, const char* one, const char* many) {
        if (held < wanted) missing.push_back(count_things(wanted - held, one, many));
    };
    const auto need = [&](bool wanted, bool held, const char* word) {
        if (wanted && !held) missing.emplace_back(word);
    };
    count(least.tubes, kit.tubes, "tube", "tubes");
    // A pump fills any number of tubes.
    if (!kit.has_pump()) {
        count(least.inflations(), kit.inflations(), "cartridge", "cartridges");
    }
    need(least.has_pump(), kit.has_pump(), "a pump");
    count(least.plugs, kit.plugs, "plug", "plugs");
    count(least.patches, kit.patches, "patch", "patches");
    count(least.boots, kit.boots, "boot", "boots");
    count(least.sealant_cans, kit.sealant_cans, "sealant can", "sealant cans");
    need(least.levers, kit.levers, "levers");
    need(least.valve_extender, kit.valve_extender, "a valve extender");
    need(least.core_tool, kit.core_tool, "a core tool");
    need(least.disc_adaptor, kit.disc_adaptor, "a disc adaptor");
    return missing;
}

void fit_kit(const Kit& kit, Wheel& wheel) {
    // An extender is screwed on where the core was.
    const bool extends = kit.valve_extender && kit.core_tool;
    const double valve_m = kit.valve_m + (extends ? kExtender_m : 0.0);
    wheel.spare_fits = kit.valve_m <= 0.0 || wheel.rim_depth_m <= 0.0 ||
                       valve_m >= wheel.rim_depth_m + kValveBeyondRim_m - 1e-9;
    wheel.air_reaches = !wheel.disc || kit.disc_adaptor;
}

}  // namespace flattail::scenario
