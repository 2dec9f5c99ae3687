#include "scenario/values/table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "input/toml/node_values.h"

namespace flattail::scenario {

namespace {

std::string suggest_key(const std::string& key, const std::vector<std::string>& known) {
    const std::string nearest = base::find_nearest_name(key, known);
    if (!nearest.empty()) return fmt::format("did you mean \"{}\"?", nearest);
    return "known here: " + fmt::format("{}", fmt::join(known, ", "));
}

}  // namespace

std::string fold_case(std::string_view text) {
    std::string folded(text);
    for (char& letter : folded) {
        if (letter >= 'A' && letter <= 'Z')
            letter = static_cast<char>(letter - 'A' + 'a');
    }
    return folded;
}

std::string list_words(const Words& words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
        text += '"' + words[i] + '"';
    }
    return text;
}

std::optional<std::size_t> match_word(const input::Node& node, const std::string& what,
                                      const Words& words, base::ProblemList& problems) {
    const std::string hint = "write " + list_words(words);
    if (!node.is(input::NodeKind::kString)) {
        problems.add_error(
            node.place, fmt::format("{} is {}, not a word", what, describe_value(node)),
            hint);
        return std::nullopt;
    }
    const std::string wanted = fold_case(node.text);
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (fold_case(words[i]) == wanted) return i;
    }
    problems.add_error(node.place, fmt::format("{} cannot be \"{}\"", what, node.text),
                       hint);
    return std::nullopt;
}

bool check_limits(double value_si, const Spec& spec, const Place& place,
                  base::ProblemList& problems) {
    // A rounding of the unit's factor must not refuse the limit itself.
    constexpr double kSlack = 1e-9;
    const double number = from_si(spec.unit, value_si);
    const double slack = kSlack * std::max(std::abs(spec.least), std::abs(spec.most));
    if (number >= spec.least - slack && number <= spec.most + slack) return true;
    const std::string unit =
        spec.unit.name.empty() ? "" : fmt::format(" {}", spec.unit.name);
    problems.add_error(
        place,
        fmt::format("{} is {}, outside {} to {}{}", spec.name,
                    write_value(spec.unit, value_si), write_number(spec.least),
                    write_number(spec.most), unit),
        spec.advice);
    return false;
}

std::optional<double> read_value(const input::Node& node, const Spec& spec,
                                 base::ProblemList& problems) {
    const std::optional<double> value =
        input::read_quantity(node, spec.dimension, problems);
    if (!value || !check_limits(*value, spec, node.place, problems)) return std::nullopt;
    return value;
}

Table::Table(const input::Node* node, std::string name, base::ProblemList& problems)
    : node_(node), name_(std::move(name)), problems_(&problems) {
    if (node_) place_ = node_->place;
    if (node_ && !node_->is(input::NodeKind::kTable)) {
        problems_->add_error(
            node_->place,
            fmt::format("{} is {}, not a table of keys", name_, describe_value(*node_)),
            fmt::format("write {} = {{ key = value, ... }}", name_));
        node_ = nullptr;
    }
}

const input::Node* Table::find(const std::string& key) {
    if (std::find(known_.begin(), known_.end(), key) == known_.end()) {
        known_.push_back(key);
    }
    return node_ ? node_->find(key) : nullptr;
}

Table Table::find_table(const std::string& key) {
    const input::Node* entry = find(key);
    Table table(entry, name_.empty() ? key : name_ + '.' + key, *problems_);
    if (!entry) table.place_ = node_ ? Place{place_.file} : place_;
    return table;
}

std::optional<std::string> Table::find_text(const std::string& key) {
    const input::Node* entry = find(key);
    return entry ? input::read_text(*entry, *problems_) : std::nullopt;
}

std::optional<bool> Table::find_boolean(const std::string& key) {
    const input::Node* entry = find(key);
    return entry ? input::read_boolean(*entry, *problems_) : std::nullopt;
}

std::optional<std::size_t> Table::find_word(const std::string& key, const Words& words) {
    const input::Node* entry = find(key);
    if (!entry) return std::nullopt;
    return match_word(*entry, name_ + '.' + key, words, *problems_);
}

std::optional<double> Table::find_value(const Spec& spec) {
    const input::Node* entry = find(key_of(spec));
    return entry ? read_value(*entry, spec, *problems_) : std::nullopt;
}

void Table::add_error(const input::Node& node, const std::string& what,
                      const std::string& hint) {
    problems_->add_error(node.place, what, hint);
}

void Table::reject_unknown_keys() {
    if (!node_) return;
    for (const input::Node& entry : node_->items) {
        if (std::find(known_.begin(), known_.end(), entry.key) != known_.end()) continue;
        const std::string owner = name_.empty() ? "a scenario" : name_;
        problems_->add_error(entry.key_place,
                             fmt::format("{} has no key \"{}\"", owner, entry.key),
                             suggest_key(entry.key, known_));
    }
}

}  // namespace flattail::scenario
