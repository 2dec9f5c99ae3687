#include "scenario/setups/read_setups.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "input/toml/node_values.h"
#include "physics/flat_hazard.h"
#include "physics/rolling.h"
#include "scenario/setups/cautions.h"
#include "scenario/setups/kit.h"
#include "scenario/setups/like.h"
#include "scenario/setups/parts.h"
#include "scenario/setups/tyres.h"
#include "scenario/values/defaults.h"
#include "scenario/values/move_distribution.h"

namespace flattail::scenario {

namespace {

using input::Dimension;
using input::Node;

constexpr std::size_t kLongestName = 300;
constexpr std::size_t kMostSetups = 64;

Spec make_spec(const char* name, Dimension dimension, const Unit& unit, double least,
               double most, const char* advice) {
    return {name,  name, dimension, unit, Scale::kPositive, Layer::kKnowledge,
            least, most, advice};
}

const Spec& pressure_spec() {
    static const Spec kSpec = make_spec(
        "setup.pressure", Dimension::kPressure, kBar, 1.5, 12,
        "write the gauge pressure at the start, like \"70 psi\" or \"4.8 bar\"");
    return kSpec;
}

const Spec& rim_depth_spec() {
    static const Spec kSpec =
        make_spec("setup.rim_depth", Dimension::kLength, kMillimetre, 10, 120,
                  "write the depth of the rim, like \"50 mm\"");
    return kSpec;
}

// One wheel's view of a setup: its own table first, then what is said of both.
class WheelReader {
  public:
    WheelReader(Draft& draft, Table& setup, Parts& parts, int index)
        : draft_(draft),
          setup_(setup),
          own_(setup.find_table(key_of_wheel(index))),
          parts_(parts),
          index_(index) {}

    Wheel read(double fitting_ratio) {
        const physics::WheelShares shares;
        Wheel wheel;
        wheel.load_share = index_ == 0 ? shares.front : shares.rear;
        if (const Node* node = require("tyre", "write tyre = \"race 28 mm\"")) {
            wheel.tyre = parts_.take_tyre(draft_, *node).value_or(-1);
        }
        if (const Node* node = require("inner", "write inner = \"butyl\"")) {
            wheel.inner = parts_.take_inner(draft_, *node).value_or(-1);
        }
        wheel.gauge_pa = read_pressure();
        wheel.wear_ratio = read_wear();
        wheel.ridden_m = read_ridden();
        // Share of fitting faults that is left after the distance ridden.
        wheel.fitting_ratio = fitting_ratio * std::exp(-wheel.ridden_m.value_or(0.0) /
                                                       physics::kFittingFadeLength);
        wheel.rim_depth_m = read_rim_depth();
        if (const Node* node = find("disc")) {
            wheel.disc = input::read_boolean(*node, draft_.problems).value_or(false);
        }
        own_.reject_unknown_keys();
        return wheel;
    }

    static const char* key_of_wheel(int index) { return index == 0 ? "front" : "rear"; }

  private:
    const Node* find(const char* key) {
        const Node* both = setup_.find(key);
        const Node* own = own_.find(key);
        return own ? own : both;
    }

    const Node* require(const char* key, const char* hint) {
        const Node* node = find(key);
        // What an unresolved `like` would have brought has been reported already.
        if (!node && !setup_.find("like")) {
            draft_.problems.add_error(setup_.place(), fmt::format("setup has no {}", key),
                                      hint);
        }
        return node;
    }

    double read_pressure() {
        const Node* node = require("pressure",
                                   "write pressure = \"70 psi\" or "
                                   "{ front = \"68 psi\", rear = \"71 psi\" }");
        if (node && node->is(input::NodeKind::kTable)) {
            const Node* side = node->find(key_of_wheel(index_));
            if (!side) {
                draft_.problems.add_error(
                    node->place,
                    fmt::format("setup.pressure has no {}", key_of_wheel(index_)),
                    "write { front = \"68 psi\", rear = \"71 psi\" }");
            }
            node = side;
        }
        if (!node) return to_si(kBar, pressure_spec().least);
        return read_value(*node, pressure_spec(), draft_.problems).value_or(5e5);
    }

    InputId read_wear() {
        static const Words kWear = {"new", "half", "worn"};
        const Node* node = find("worn");
        if (!node) return {};
        const auto word = match_word(*node, "setup.worn", kWear, draft_.problems);
        const auto spec = make_wear_spec(static_cast<Wear>(word.value_or(0)));
        return spec ? add_input(draft_, make_usual_input(*spec)) : InputId{};
    }

    double read_rim_depth() {
        const Node* node = find("rim_depth");
        if (!node) return 0.0;
        return read_value(*node, rim_depth_spec(), draft_.problems).value_or(0.0);
    }

    std::optional<double> read_ridden() {
        static const Spec kRidden =
            make_spec("setup.ridden_since_fitting", Dimension::kLength, kKilometre, 0,
                      1e5, "write a distance like \"50 km\"");
        const Node* node = find("ridden_since_fitting");
        if (!node) return std::nullopt;
        return read_value(*node, kRidden, draft_.problems);
    }

    Draft& draft_;
    Table& setup_;
    Table own_;
    Parts& parts_;
    int index_;
};

// { save = "6 W", per = "pair" or "tyre", at = "45 km/h", load = "85 kg" }: the load is
// what the pair, or the one tyre, carried in the test.
InputId read_rolling_gain(Draft& draft, Table& setup, const std::string& name) {
    if (!setup.find("rolling")) return {};
    static const Spec kAt = make_spec("setup.rolling.at", Dimension::kSpeed,
                                      kKilometrePerHour, 5, 100, "write \"45 km/h\"");
    static const Spec kLoad = make_spec("setup.rolling.load", Dimension::kMass, kKilogram,
                                        10, 300, "write the load of the test, \"85 kg\"");
    Table table = setup.find_table("rolling");
    const auto per = table.find_word("per", {"pair", "tyre"});
    const auto at_m_s = table.find_value(kAt);
    const auto load_kg = table.find_value(kLoad);
    const Node* save = table.find("save");
    for (const auto& [key, hint] :
         {std::pair{"save", "write save = \"6 W\""},
          std::pair{"per",
                    "write per = \"pair\" or \"tyre\": six watts for two tyres are "
                    "three for each"},
          std::pair{"at", "write the speed of the test, at = \"45 km/h\""},
          std::pair{"load",
                    "write what the pair or the tyre carried, load = \"85 kg\""}}) {
        if (table.find(key)) continue;
        draft.problems.add_error(table.place(),
                                 fmt::format("setup.rolling has no {}", key), hint);
    }
    table.reject_unknown_keys();
    if (!save || !per || !at_m_s || !load_kg) return {};
    Spec spec = make_spec("setup.rolling.save", Dimension::kPower, kWatt, -60, 60,
                          "write a power like \"6 W\"");
    spec.scale = Scale::kSigned;
    const auto saved = read_stated_value(*save, spec, draft.problems);
    if (!saved) return {};
    const physics::RollingPoint point{*at_m_s, *load_kg};
    Input input =
        scale_input(make_input(spec, *saved), physics::convert_power_to_crr(1.0, point));
    input.name = fmt::format("setup.{}.rolling", name);
    input.label =
        fmt::format("{}: rolling saved per {}", name, *per == 0 ? "pair" : "tyre");
    input.origin = Origin::kStated;
    input.source = "stated";
    input.place = save->place;
    return add_input(draft, std::move(input));
}

Rim read_rim(Table& setup) {
    static const Spec kMost = make_spec("setup.rim.most", Dimension::kPressure, kBar, 1,
                                        15, "write the rim's marking, like \"6.5 bar\"");
    static const Spec kWidth =
        make_spec("setup.rim.inner_width", Dimension::kLength, kMillimetre, 10, 50,
                  "write the width between the beads, like \"21 mm\"");
    Table table = setup.find_table("rim");
    Rim rim;
    if (table.find_boolean("hookless").value_or(false)) rim.kind = RimKind::kHookless;
    if (const auto brake = table.find_word("brake", {"rim", "disc"})) {
        rim.brake = *brake == 0 ? Brake::kRim : Brake::kDisc;
    }
    rim.most_pa = table.find_value(kMost);
    rim.inner_width_m = table.find_value(kWidth);
    if (const Node* depth = table.find("depth")) {
        rim.depth_m = read_value(*depth, rim_depth_spec(), setup.problems());
    }
    table.reject_unknown_keys();
    return rim;
}

// A caption for tables and pictures; it must print on one line.
bool is_printable(const std::string& name) {
    return std::none_of(name.begin(), name.end(), [](char c) {
        return static_cast<unsigned char>(c) < 0x20 || c == 0x7f;
    });
}

void check_name(Draft& draft, const Node& node, const std::string& name) {
    if (name.find_first_not_of(' ') == std::string::npos) {
        draft.problems.add_error(node.place, "setup.name is blank",
                                 "write a name that tells it from the others");
        return;
    }
    if (!is_printable(name)) {
        draft.problems.add_error(node.place, "setup.name holds a control character",
                                 "write a name on one line");
    }
    if (name.size() > kLongestName) {
        draft.problems.add_error(node.place,
                                 fmt::format("setup.name is {} bytes long, over {}",
                                             name.size(), kLongestName),
                                 "write a shorter name");
    }
    for (const Setup& other : draft.model.setups) {
        if (fold_case(other.name) != fold_case(name)) continue;
        draft.problems.add_error(node.place,
                                 fmt::format("two setups are called \"{}\"", name),
                                 "give each its own name");
        return;
    }
}

struct Reader {
    Draft& draft;
    Parts& parts;
    double fitting_ratio;
    std::vector<std::string> limitless;  // setups whose rim limit is not stated
    Place first_limitless;

    void note_missing_limit(const Table& table, const Setup& setup) {
        if (setup.rim.most_pa) return;
        if (limitless.empty()) first_limitless = table.place();
        limitless.push_back(setup.name);
    }

    void warn_of_limits() {
        if (limitless.empty()) return;
        draft.model.warnings.push_back(
            {first_limitless,
             fmt::format("rim pressure limit not given for {}: no pressure was checked "
                         "against it",
                         fmt::join(limitless, ", ")),
             "write rim = { most = \"6.5 bar\" }", Severity::kWarning});
    }

    void read_parts_of(Table& table, Setup& setup) {
        for (int w = 0; w < kWheels; ++w) {
            setup.wheels[static_cast<std::size_t>(w)] =
                WheelReader(draft, table, parts, w).read(fitting_ratio);
        }
        static const Spec kAdded =
            make_spec("setup.added_mass", Dimension::kMass, kGram, -5000, 5000,
                      "write a mass against the bicycle as stated, like \"+30 g\"");
        setup.added_mass_kg = table.find_value(kAdded).value_or(0.0);
        static const Spec kPrice =
            make_spec("setup.price", Dimension::kNumber, kNoUnit, 0, 1e9,
                      "write what fitting it costs as a number, like price = 60");
        setup.price = table.find_value(kPrice);
        setup.rolling_saved_crr = read_rolling_gain(draft, table, setup.name);
        ListedKit listed = read_kit(table.find("kit"), parts, draft.problems);
        setup.kit = std::move(listed.kit);
        if (!listed.spare.empty()) {
            setup.kit.spare_inner = parts.take_known_inner(draft, listed.spare);
        }
    }

    void read(const Node& node) {
        Table table(&node, "setup", draft.problems);
        Setup setup;
        setup.name = table.find_text("name").value_or("");
        if (const Node* name = table.find("name")) {
            check_name(draft, *name, setup.name);
        } else {
            draft.problems.add_error(table.place(), "setup has no name",
                                     "write name = \"...\"");
        }
        read_parts_of(table, setup);
        setup.rim = read_rim(table);
        for (Wheel& wheel : setup.wheels) {
            if (wheel.rim_depth_m <= 0.0) {
                wheel.rim_depth_m = setup.rim.depth_m.value_or(0.0);
            }
            fit_kit(setup.kit, wheel);
        }
        if (table.find_boolean("on_now").value_or(false)) {
            draft.model.decision.against = static_cast<int>(draft.model.setups.size());
        }
        table.reject_unknown_keys();
        note_missing_limit(table, setup);
        draft.model.setups.push_back(std::move(setup));
    }
};

std::string name_of(const Node& setup) {
    const Node* name = setup.find("name");
    return name && name->is(input::NodeKind::kString) ? name->text : "";
}

// Leaves those that the rider owns; one file then serves a whole squad.
void keep_owned(Draft& draft, const Node* owned, std::vector<Node>& setups) {
    if (!owned) return;
    std::vector<std::string> known, wanted;
    for (const Node& setup : setups) known.push_back(name_of(setup));
    for (const Node& item : owned->items) {
        wanted.push_back(item.text);
        if (std::count(known.begin(), known.end(), item.text) > 0) continue;
        const std::string nearest = base::find_nearest_name(item.text, known);
        draft.problems.add_error(
            item.place, fmt::format("owned: no setup is called \"{}\"", item.text),
            nearest.empty() ? fmt::format("write some of: {}", fmt::join(known, ", "))
                            : fmt::format("did you mean \"{}\"?", nearest));
    }
    if (!owned->is(input::NodeKind::kArray) || wanted.empty()) {
        draft.problems.add_error(owned->place, "owned is no list of setups",
                                 "write owned = [\"Butyl\", \"Latex\"]");
        return;
    }
    const auto left_out =
        std::stable_partition(setups.begin(), setups.end(), [&](const Node& setup) {
            return std::count(wanted.begin(), wanted.end(), name_of(setup)) > 0;
        });
    for (auto setup = left_out; setup != setups.end(); ++setup) {
        draft.not_owned.push_back(name_of(*setup));
    }
    setups.erase(left_out, setups.end());
}

void fill_default(Node& setup, const char* key, const Node* node) {
    if (!node) return;
    Node holder;
    holder.items.push_back(*node);
    holder.items.back().key = key;
    fill_from(setup, holder);
}

}  // namespace

void read_setups(Draft& draft, const SetupNodes& nodes, Parts& parts,
                 double fitting_ratio) {
    if (!nodes.setups || !nodes.setups->is_table_list()) {
        const Place place = nodes.setups ? nodes.setups->place : Place{draft.model.file};
        draft.problems.add_error(place, "there is no setup to ride",
                                 "add a [[setup]] with name, tyre, inner and pressure");
        return;
    }
    if (nodes.setups->items.size() > kMostSetups) {
        draft.problems.add_error(nodes.setups->items[kMostSetups].place,
                                 fmt::format("more than {} setups", kMostSetups),
                                 "compare fewer setups in one scenario");
        return;
    }
    const int errors_before = draft.problems.error_count();
    Reader reader{draft, parts, fitting_ratio, {}, {}};
    if (!nodes.kit) {
        note_choice(draft, "kit", "carried", "tube, cartridge 16 g, levers",
                    Origin::kAssumption,
                    "assumption, for setups without a kit of their own");
    }
    std::vector<Node> setups = resolve_likes(*nodes.setups, draft.problems);
    keep_owned(draft, nodes.owned, setups);
    for (Node& setup : setups) {
        fill_default(setup, "kit", nodes.kit);
        fill_default(setup, "rim", nodes.rim);
        reader.read(setup);
    }
    reader.warn_of_limits();
    if (draft.problems.error_count() > errors_before) return;
    for (Setup& setup : draft.model.setups) add_cautions(draft.model, setup);
}

}  // namespace flattail::scenario
