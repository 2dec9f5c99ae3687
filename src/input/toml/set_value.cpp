// --set KEY=VALUE: one value of a document replaced from the command line.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "input/text/text_file.h"
#include "input/toml/document.h"
#include "input/toml/toml_parser.h"

namespace flattail::input {

namespace {

const Place kPlace{kSetPlace, 0, 0};
constexpr const char* kHowTo = "write --set rider.power=\"240 W\"";

struct Assignment {
    std::vector<std::string> keys;
    std::string path;  // the keys as they were written
    std::string value;
};

// Splits `setup."Latex 28".inner=butyl` at dots and the first = outside quotes.
std::optional<Assignment> split_assignment(std::string_view text) {
    Assignment result;
    std::string key;
    char quote = 0;
    bool was_quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quote != 0) {
            if (c == quote) {
                quote = 0;
            } else {
                key += c;
            }
        } else if ((c == '"' || c == '\'') && trim(key).empty()) {
            quote = c;
            was_quoted = true;
            key.clear();
        } else if (c == '.' || c == '=') {
            if (!was_quoted) key = std::string(trim(key));
            if (key.empty()) return std::nullopt;
            result.keys.push_back(std::move(key));
            key.clear();
            was_quoted = false;
            if (c == '.') continue;
            result.path = std::string(trim(text.substr(0, i)));
            result.value = std::string(trim(text.substr(i + 1)));
            return result;
        } else if (!was_quoted) {
            key += c;
        } else if (c != ' ') {
            return std::nullopt;
        }
    }
    return std::nullopt;
}

std::string read_name(const Node& element) {
    const Node* name = element.find("name");
    return name != nullptr && name->is(NodeKind::kString) ? name->text : std::string();
}

std::vector<std::string> list_names(const Node& list) {
    std::vector<std::string> names;
    for (const Node& element : list.items) {
        std::string name = read_name(element);
        if (!name.empty()) names.push_back(std::move(name));
    }
    return names;
}

std::string quote_list(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) {
        if (!text.empty()) text += ", ";
        text += '"' + name + '"';
    }
    return text;
}

// The element called `key`, else the one with this number, counted from 1.
Node* choose_element(Node& list, const std::string& key) {
    for (Node& element : list.items) {
        if (read_name(element) == key) return &element;
    }
    std::size_t number = 0;
    const auto [end, error] =
        std::from_chars(key.data(), key.data() + key.size(), number);
    const bool whole = error == std::errc() && end == key.data() + key.size();
    return whole && number >= 1 && number <= list.items.size() ? &list.items[number - 1]
                                                               : nullptr;
}

void report_no_element(const Node& list, const std::string& key, const std::string& path,
                       base::ProblemList& problems) {
    const std::vector<std::string> names = list_names(list);
    const std::string nearest = base::find_nearest_name(key, names);
    const std::string numbers =
        fmt::format("a number from 1 to {}", std::max<std::size_t>(list.items.size(), 1));
    std::string hint = "write " + numbers;
    if (!nearest.empty()) {
        hint = fmt::format("write \"{}\"", nearest);
    } else if (!names.empty()) {
        hint = fmt::format("write one of {}, or {}", quote_list(names), numbers);
    }
    problems.add_error(
        kPlace, fmt::format("{}: the list has no element \"{}\"", path, key), hint);
}

// The place in the tree that one more key leads to; tables grow, lists and scalars do
// not.
Node* step_into(Node& from, const std::string& key, const std::string& path,
                base::ProblemList& problems) {
    if (from.is(NodeKind::kArray)) {
        Node* element = choose_element(from, key);
        if (element == nullptr) report_no_element(from, key, path, problems);
        return element;
    }
    if (!from.is(NodeKind::kTable)) {
        problems.add_error(
            kPlace,
            fmt::format("{}: \"{}\" leads into {}, which is {}, not a table", path, key,
                        from.key, describe_value(from)),
            fmt::format("write {}=VALUE to replace it", from.key));
        return nullptr;
    }
    if (Node* entry = from.find(key)) return entry;
    Node made;
    made.key = key;
    made.place = made.key_place = kPlace;
    from.items.push_back(std::move(made));
    return &from.items.back();
}

// Text that starts like TOML and is none is a slip, all else that is no TOML is plain
// text.
std::optional<Node> read_value(const Assignment& assignment,
                               base::ProblemList& problems) {
    if (std::optional<Node> value = parse_toml_value(assignment.value, kPlace))
        return value;
    const char first = assignment.value.empty() ? '\0' : assignment.value.front();
    if (first == '[' || first == '{' || first == '"' || first == '\'') {
        problems.add_error(kPlace,
                           fmt::format("{}: {} is not a whole TOML value",
                                       assignment.path, assignment.value),
                           "close every quote, bracket and brace");
        return std::nullopt;
    }
    Node text;
    text.kind = NodeKind::kString;
    text.text = assignment.value;
    text.place = kPlace;
    return text;
}

}  // namespace

void set_value(Document& document, const std::string& assignment,
               base::ProblemList& problems) {
    const std::optional<Assignment> parts = split_assignment(assignment);
    if (!parts) {
        problems.add_error(kPlace, fmt::format("{} is not KEY=VALUE", assignment),
                           kHowTo);
        return;
    }
    if (parts->keys.front() == "include") {
        problems.add_error(kPlace, "include cannot be set (files are read before)",
                           "write the include into the scenario file");
        return;
    }
    if (parts->value.empty()) {
        problems.add_error(kPlace, fmt::format("{} has no value", parts->path),
                           fmt::format("write a value after {}=", parts->path));
        return;
    }
    std::optional<Node> value = read_value(*parts, problems);
    if (!value) return;
    Node* target = &document.root;
    for (const std::string& key : parts->keys) {
        target = step_into(*target, key, parts->path, problems);
        if (target == nullptr) return;
    }
    value->key = target->key;
    value->key_place = kPlace;
    *target = std::move(*value);
}

}  // namespace flattail::input
