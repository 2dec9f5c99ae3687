#include "input/toml/toml_guarded.h"
// The guard comes first: it sets macros that every header of the library reads.
#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "input/toml/toml_advice.h"
#include "input/toml/toml_parser.h"

namespace flattail::input {

namespace {

Place convert_place(const toml::source_region& region, const std::string& name) {
    return {name, static_cast<int>(region.begin.line),
            static_cast<int>(region.begin.column)};
}

std::string format_date(const toml::date& date) {
    return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
}

std::string format_time(const toml::time& time) {
    std::string text =
        fmt::format("{:02}:{:02}:{:02}", time.hour, time.minute, time.second);
    if (time.nanosecond > 0) text += fmt::format(".{:09}", time.nanosecond);
    return text;
}

std::string format_date_time(const toml::date_time& moment) {
    std::string text = format_date(moment.date) + 'T' + format_time(moment.time);
    if (!moment.offset) return text;
    const int minutes = moment.offset->minutes;
    if (minutes == 0) return text + 'Z';
    const int size = std::abs(minutes);
    return text +
           fmt::format("{}{:02}:{:02}", minutes < 0 ? '-' : '+', size / 60, size % 60);
}

Node convert(const toml::node& source, const std::string& name);

// The library keeps tables sorted by key; the order of writing comes back from the
// places.
void convert_entries(const toml::table& source, const std::string& name, Node& table) {
    for (const auto& [key, value] : source) {
        Node entry = convert(value, name);
        entry.key = std::string(key.str());
        entry.key_place = convert_place(key.source(), name);
        table.items.push_back(std::move(entry));
    }
    std::stable_sort(table.items.begin(), table.items.end(),
                     [](const Node& a, const Node& b) {
                         return std::tie(a.key_place.line, a.key_place.column) <
                                std::tie(b.key_place.line, b.key_place.column);
                     });
}

void convert_number(const toml::node& source, Node& node) {
    if (const auto* integer = source.as_integer()) {
        node.kind = NodeKind::kInteger;
        node.integer = integer->get();
        node.number = static_cast<double>(node.integer);
        node.text = fmt::format("{}", node.integer);
    } else if (const auto* real = source.as_floating_point()) {
        node.kind = NodeKind::kReal;
        node.number = real->get();
        node.text = fmt::format("{}", node.number);
    }
}

void convert_moment(const toml::node& source, Node& node) {
    node.kind = NodeKind::kDatetime;
    if (const auto* date = source.as_date()) node.text = format_date(date->get());
    if (const auto* time = source.as_time()) node.text = format_time(time->get());
    if (const auto* both = source.as_date_time())
        node.text = format_date_time(both->get());
}

Node convert(const toml::node& source, const std::string& name) {
    Node node;
    node.place = convert_place(source.source(), name);
    node.key_place = node.place;
    if (const auto* table = source.as_table()) {
        convert_entries(*table, name, node);
    } else if (const auto* array = source.as_array()) {
        node.kind = NodeKind::kArray;
        for (const toml::node& element : *array)
            node.items.push_back(convert(element, name));
    } else if (const auto* text = source.as_string()) {
        node.kind = NodeKind::kString;
        node.text = text->get();
    } else if (const auto* boolean = source.as_boolean()) {
        node.kind = NodeKind::kBoolean;
        node.boolean = boolean->get();
        node.text = node.boolean ? "true" : "false";
    } else if (source.is_number()) {
        convert_number(source, node);
    } else {
        convert_moment(source, node);
    }
    return node;
}

std::string quoted_piece(std::string_view complaint) {
    const std::size_t first = complaint.find('\'');
    const std::size_t last = complaint.find('\'', first + 1);
    if (first == std::string_view::npos || last == std::string_view::npos) return "";
    return std::string(trim(complaint.substr(first + 1, last - first - 1)));
}

// The parser notices a repeated key after reading it; the place moves back to its start.
Place move_to_key(Place place, std::string_view line, const std::string& key) {
    const bool ascii =
        std::all_of(line.begin(), line.end(), [](char c) { return (c & 0x80) == 0; });
    const std::size_t noticed = static_cast<std::size_t>(std::max(place.column, 1));
    std::size_t start = line.rfind(key, noticed);
    if (start == std::string_view::npos) start = line.find(key);
    if (ascii && start != std::string_view::npos)
        place.column = static_cast<int>(start) + 1;
    return place;
}

void report_repetition(const std::string& key, const Place& place, std::string_view line,
                       base::ProblemList& problems) {
    if (trim(line).starts_with("[[")) {
        problems.add_error(place,
                           fmt::format("{} is a list here and something else above", key),
                           fmt::format("write [[{}]] each time", key));
    } else if (trim(line).starts_with('[')) {
        problems.add_error(
            place, fmt::format("{} is set twice", key),
            fmt::format(
                "put all its keys under one [{0}], or write [[{0}]] for elements of "
                "a list",
                key));
    } else {
        problems.add_error(place, fmt::format("{} is set twice", key),
                           "keep one of the two");
    }
}

// A file of another kind fails at its first letters; then the kind is the news.
bool report_other_kind(const TextFile& file, base::ProblemList& problems) {
    const std::string_view text = trim(file.text);
    const std::string_view line = text.substr(0, text.find('\n'));
    const Place start{file.name, 1, 1};
    if (text.starts_with('<')) {
        problems.add_error(
            start, "is XML, perhaps a GPX track, and no scenario",
            "write a scenario that names the track: race = { course = \"...gpx\" }; "
            "`flattail start` asks for the rest");
    } else if (text.starts_with('{')) {
        problems.add_error(start, "is JSON and no scenario (a scenario is TOML)",
                           "write key = value, or let `flattail start` write one");
    } else if (line.find('=') == std::string_view::npos && !line.starts_with('[') &&
               line.find_first_of(",;") != std::string_view::npos) {
        problems.add_error(start, "is a table of columns (CSV) and no scenario",
                           "write a scenario that names the table, like race = { course "
                           "= \"...csv\" }; `flattail start` asks for the rest");
    } else {
        return false;
    }
    return true;
}

void report_malformed(const toml::parse_error& error, const TextFile& file,
                      base::ProblemList& problems) {
    if (report_other_kind(file, problems)) return;
    const Place place = convert_place(error.source(), file.name);
    const TextPlaces places(file.text, file.name);
    const std::string_view line = places.line(place.line);
    const std::string_view complaint = error.description();
    const bool repeats = complaint.find("cannot redefine") != std::string_view::npos ||
                         complaint.find("cannot insert") != std::string_view::npos;
    if (const std::string key = quoted_piece(complaint); repeats && !key.empty()) {
        report_repetition(key, move_to_key(place, line, key), line, problems);
    } else if (repeats) {
        problems.add_error(place, "a key before the dot is no table (it is set above)",
                           "keep one of the two");
    } else {
        problems.add_error(
            place,
            fmt::format("is not valid TOML ({})", explain_toml_complaint(complaint)),
            suggest_toml_fix(line, complaint));
    }
}

// The library gives no place for these; the first header that is not closed is to blame.
void report_broken_header(const TextFile& file, base::ProblemList& problems) {
    const TextPlaces places(file.text, file.name);
    const int lines = places.at(file.text.size()).line;
    Place place{file.name, 0, 0};
    for (int number = 1; number <= lines && place.line == 0; ++number) {
        const std::string_view line = trim(places.line(number));
        if (line.starts_with('[') && line.find(']') == std::string_view::npos) {
            place = {file.name, number, 1};
        }
    }
    problems.add_error(place, "is not valid TOML (a table name is broken)",
                       "write a table as [name] and a list element as [[name]]");
}

}  // namespace

std::optional<Node> parse_toml(const TextFile& file, base::ProblemList& problems) {
    try {
        Node root = convert(toml::parse(std::string_view(file.text)), file.name);
        root.place = root.key_place = {file.name, 1, 1};
        return root;
    } catch (const toml::parse_error& error) {
        report_malformed(error, file, problems);
    } catch (const TomlPromiseBroken&) {
        report_broken_header(file, problems);
    }
    return std::nullopt;
}

namespace {

void set_places(Node& node, const Place& place) {
    node.place = node.key_place = place;
    for (Node& item : node.items) set_places(item, place);
}

}  // namespace

std::optional<Node> parse_toml_value(std::string_view text, const Place& place) {
    // A line end or a comment would let more than one value through.
    if (text.find_first_of("\n\r") != std::string_view::npos) return std::nullopt;
    base::ProblemList ignored;
    const TextFile line{place.file, "value = " + std::string(text) + "\n"};
    std::optional<Node> root = parse_toml(line, ignored);
    if (!root || root->items.size() != 1) return std::nullopt;
    Node value = std::move(root->items.front());
    const bool scalar = !value.is(NodeKind::kString) && value.items.empty();
    if (scalar && text.find('#') != std::string_view::npos) return std::nullopt;
    value.key.clear();
    set_places(value, place);
    return value;
}

}  // namespace flattail::input
