#include "input/toml/document.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

namespace flattail::input {

bool Node::is_table_list() const {
    return is(NodeKind::kArray) && !items.empty() &&
           std::all_of(items.begin(), items.end(),
                       [](const Node& item) { return item.is(NodeKind::kTable); });
}

const Node* Node::find(std::string_view name) const {
    if (!is(NodeKind::kTable)) return nullptr;
    const auto it = std::find_if(items.begin(), items.end(),
                                 [&](const Node& item) { return item.key == name; });
    return it == items.end() ? nullptr : &*it;
}

Node* Node::find(std::string_view name) {
    return const_cast<Node*>(static_cast<const Node*>(this)->find(name));
}

std::string_view describe_kind(NodeKind kind) {
    switch (kind) {
        case NodeKind::kString:
            return "text";
        case NodeKind::kInteger:
            return "a whole number";
        case NodeKind::kReal:
            return "a number";
        case NodeKind::kBoolean:
            return "true or false";
        case NodeKind::kDatetime:
            return "a date or time";
        case NodeKind::kArray:
            return "a list";
        case NodeKind::kTable:
            break;
    }
    return "a table";
}

std::string describe_value(const Node& node) {
    if (node.is(NodeKind::kString)) return fmt::format("\"{}\"", node.text);
    if (node.is(NodeKind::kArray) || node.is(NodeKind::kTable)) {
        return std::string(describe_kind(node.kind));
    }
    return node.text;
}

std::string resolve_path(const Node& node) {
    const std::filesystem::path named(node.text);
    if (named.is_absolute() || node.place.file == kSetPlace) return node.text;
    const std::filesystem::path folder =
        std::filesystem::path(node.place.file).parent_path();
    return (folder / named).lexically_normal().string();
}

}  // namespace flattail::input
