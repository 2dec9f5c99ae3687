#include "scenario/setups/parts.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/expects.h"
#include "input/toml/node_values.h"
#include "scenario/setups/inners.h"
#include "scenario/setups/tyres.h"

namespace flattail::scenario {

namespace {

using input::Node;

const std::string& name_of(const TyrePart& part) { return part.tyre.name; }
const std::string& name_of(const InnerPart& part) { return part.inner.name; }

template <class Part>
const Part* find_by_name(const std::vector<Part>& parts, const std::string& name) {
    const std::string wanted = fold_case(name);
    const auto it = std::find_if(parts.begin(), parts.end(), [&](const Part& part) {
        return fold_case(name_of(part)) == wanted;
    });
    return it == parts.end() ? nullptr : &*it;
}

// Reads each entry of a list with `read`, refusing two of the same name.
template <class Part, class Read>
std::vector<Part> read_list(const Node* list, const std::string& what, Read read,
                            const TestedProducts& tested, base::ProblemList& problems) {
    std::vector<Part> parts;
    if (!list) return parts;
    if (!list->is_table_list()) {
        problems.add_error(list->place, fmt::format("{} is no list of tables", what),
                           fmt::format("write [[{}]]", what));
        return parts;
    }
    for (const Node& item : list->items) {
        std::optional<Part> part = read(item, tested, problems);
        if (!part) continue;
        if (find_by_name(parts, name_of(*part))) {
            problems.add_error(
                item.place,
                fmt::format("two {}s are called \"{}\"", what, name_of(*part)),
                "give each its own name");
            continue;
        }
        parts.push_back(std::move(*part));
    }
    return parts;
}

template <class Part>
int find_index(const std::vector<Part>& used, const std::string& name) {
    for (std::size_t i = 0; i < used.size(); ++i) {
        if (used[i].name == name) return static_cast<int>(i);
    }
    return -1;
}

template <class Part>
std::vector<std::string> list_names(const std::vector<Part>& parts) {
    std::vector<std::string> names;
    for (const Part& part : parts) names.push_back(name_of(part));
    return names;
}

}  // namespace

Parts::Parts(const Node* tyres, const Node* inners, const TestedProducts& tested,
             base::ProblemList& problems)
    : tyres_(read_list<TyrePart>(tyres, "tyre", read_tyre, tested, problems)),
      inners_(read_list<InnerPart>(inners, "inner", read_inner, tested, problems)) {}

std::optional<TyrePart> Parts::find_tyre(const std::string& word) const {
    if (const TyrePart* own = find_by_name(tyres_, word)) return *own;
    const auto known = make_known_tyre(word);
    // "race 28mm" is the user's own "race 28 mm" when that is listed.
    if (known) {
        if (const TyrePart* own = find_by_name(tyres_, known->tyre.name)) return *own;
    }
    return known;
}

std::optional<InnerPart> Parts::find_inner(const std::string& word) const {
    if (const InnerPart* own = find_by_name(inners_, word)) return *own;
    const auto known = make_known_inner(word);
    // "TPU" under another of its words is still the user's own when that is listed.
    if (known) {
        if (const InnerPart* own = find_by_name(inners_, known->inner.name)) return *own;
    }
    return known;
}

std::optional<std::string> Parts::find_inner_name(const std::string& word) const {
    const auto part = find_inner(word);
    if (!part) return std::nullopt;
    return part->inner.name;
}

InnerMaterial Parts::find_material(const std::string& name) const {
    const auto part = find_inner(name);
    FLATTAIL_EXPECTS(part.has_value());
    return part->inner.material;
}

InnerKind Parts::find_kind(const std::string& name) const {
    const auto part = find_inner(name);
    FLATTAIL_EXPECTS(part.has_value());
    return part->inner.kind;
}

std::optional<int> Parts::take_tyre(Draft& draft, const Node& node) {
    const auto word = input::read_text(node, draft.problems);
    if (!word) return std::nullopt;
    const auto part = find_tyre(*word);
    if (!part) {
        Words names = list_names(tyres_);
        for (const char* known : {"race 28 mm", "thin time-trial 25 mm", "tough 30 mm"}) {
            names.push_back(known);
        }
        draft.problems.add_error(node.place,
                                 fmt::format("no tyre is called \"{}\"", *word),
                                 "write " + list_words(names) +
                                     " (any width from 18 to 60 mm), or add a [[tyre]]");
        return std::nullopt;
    }
    const int known = find_index(draft.model.tyres, part->tyre.name);
    if (known >= 0) return known;
    Tyre tyre = part->tyre;
    tyre.crr_change = add_input(draft, part->crr_change);
    tyre.cut_ratio = add_input(draft, part->cut_ratio);
    draft.model.tyres.push_back(std::move(tyre));
    return static_cast<int>(draft.model.tyres.size()) - 1;
}

std::optional<int> Parts::take_inner(Draft& draft, const Node& node) {
    const auto word = input::read_text(node, draft.problems);
    if (!word) return std::nullopt;
    if (const auto part = find_inner(*word)) return add_inner(draft, *part);
    Words names = list_names(inners_);
    for (const std::string& known : known_inner_words()) names.push_back(known);
    draft.problems.add_error(node.place, fmt::format("no inner is called \"{}\"", *word),
                             "write " + list_words(names) + ", or add an [[inner]]");
    return std::nullopt;
}

int Parts::take_known_inner(Draft& draft, const std::string& name) {
    const auto part = find_inner(name);
    FLATTAIL_EXPECTS(part.has_value());
    return add_inner(draft, *part);
}

int Parts::add_inner(Draft& draft, const InnerPart& part) {
    const int known = find_index(draft.model.inners, part.inner.name);
    if (known >= 0) return known;
    Inner inner = part.inner;
    inner.crr_change = add_input(draft, part.crr_change);
    inner.cut_ratio = add_input(draft, part.cut_ratio);
    inner.fitting_fault = add_input(draft, part.fitting_fault);
    if (inner.kind == InnerKind::kSealant) {
        inner.sealant_holds = add_input(draft, part.sealant_holds);
        inner.sealant_loss_pa = add_input(draft, part.sealant_loss_pa);
    }
    inner.leak.air_loss_pa = add_input(draft, part.air_loss_pa);
    if (part.carbon_dioxide_loss_pa) {
        inner.leak.carbon_dioxide_loss_pa =
            add_input(draft, *part.carbon_dioxide_loss_pa);
    }
    draft.model.inners.push_back(std::move(inner));
    return static_cast<int>(draft.model.inners.size()) - 1;
}

}  // namespace flattail::scenario
