#include "input/toml/node_values.h"

#include <fmt/format.h>

namespace flattail::input {

namespace {

void report(const Node& node, const Refusal& refusal, base::ProblemList& problems) {
    const std::string name = node.key.empty() ? std::string() : node.key + ": ";
    problems.add_error(node.place, name + refusal.what, format_hint(refusal, node.key));
}

Refusal refuse_kind(const Node& node, std::string_view wanted, std::string_view example) {
    return {fmt::format("is {} ({} is wanted)", describe_kind(node.kind), wanted), "",
            std::string(example)};
}

// `key = true`, for values that stand without quotes.
Refusal refuse_unquoted(const Node& node, std::string_view wanted,
                        std::string_view example) {
    const std::string key = node.key.empty() ? std::string() : node.key + " = ";
    return {fmt::format("is {} ({} is wanted)", describe_kind(node.kind), wanted),
            fmt::format("write {}{}", key, example), ""};
}

Parsed<double> parse_node(const Node& node, Dimension dimension) {
    if (node.is_number()) return accept_bare_number(node.number, node.text, dimension);
    if (node.is(NodeKind::kString)) return parse_quantity(node.text, dimension);
    return refuse_kind(node, describe_dimension(dimension), show_example(dimension));
}

}  // namespace

std::optional<double> read_quantity(const Node& node, Dimension dimension,
                                    base::ProblemList& problems) {
    const Parsed<double> value = parse_node(node, dimension);
    if (value) return *value;
    report(node, value.refusal(), problems);
    return std::nullopt;
}

std::optional<ClockTime> read_clock(const Node& node, base::ProblemList& problems) {
    const bool readable = node.is(NodeKind::kString) || node.is(NodeKind::kDatetime);
    const Parsed<ClockTime> clock =
        readable
            ? parse_clock(node.text)
            : Parsed<ClockTime>(refuse_kind(node, "a time of day", "2026-06-14 08:05"));
    if (clock) return *clock;
    report(node, clock.refusal(), problems);
    return std::nullopt;
}

std::optional<std::string> read_text(const Node& node, base::ProblemList& problems) {
    if (node.is(NodeKind::kString) && !node.text.empty()) return node.text;
    if (node.is(NodeKind::kString)) {
        report(node, {"is empty", "write some text between the quotes", ""}, problems);
    } else {
        const bool scalar = !node.is(NodeKind::kArray) && !node.is(NodeKind::kTable);
        report(node, refuse_kind(node, "text in quotes", scalar ? node.text : "..."),
               problems);
    }
    return std::nullopt;
}

std::optional<std::int64_t> read_whole_number(const Node& node,
                                              base::ProblemList& problems) {
    if (node.is(NodeKind::kInteger)) return node.integer;
    report(node, refuse_unquoted(node, "a whole number", "2"), problems);
    return std::nullopt;
}

std::optional<bool> read_boolean(const Node& node, base::ProblemList& problems) {
    if (node.is(NodeKind::kBoolean)) return node.boolean;
    report(node, refuse_unquoted(node, "true or false", "true"), problems);
    return std::nullopt;
}

}  // namespace flattail::input
