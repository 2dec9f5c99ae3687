#include "scenario/tables/read_stretches.h"

#include <fmt/format.h>

#include "input/tables/csv.h"
#include "input/toml/node_values.h"
#include "scenario/values/defaults.h"

namespace flattail::scenario {

namespace {

using course::CourseRequest;
using course::Stretch;
using input::Node;

const Words& surface_words() {
    static const Words kWords(course::kSurfaceNames.begin(), course::kSurfaceNames.end());
    return kWords;
}

Spec name_place(const char* name) {
    return {name,
            name,
            input::Dimension::kLength,
            kKilometre,
            Scale::kPositive,
            Layer::kKnowledge,
            0,
            2000,
            "write a place along the course like \"12.4 km\""};
}

std::optional<Stretch> read_stretch(Draft& draft, const Node& node) {
    Table table(&node, "road.stretch", draft.problems);
    Stretch stretch;
    const auto from = table.find_value(name_place("road.stretch.from"));
    const auto to = table.find_value(name_place("road.stretch.to"));
    for (const char* key : {"from", "to"}) {
        if (table.find(key)) continue;
        draft.problems.add_error(table.place(),
                                 fmt::format("road.stretch.{} is missing", key),
                                 "write from = \"12.4 km\" and to = \"13 km\"");
    }
    stretch.name = table.find_text("name").value_or("");
    if (const Node* entry = table.find("surface")) {
        stretch.surface = read_surface(*entry, "road.stretch.surface", draft.problems);
    }
    if (const Node* entry = table.find("shelter")) {
        stretch.shelter = read_shelter(*entry, draft.problems);
    }
    stretch.debris = table.find_value(find_spec("road.debris"));
    stretch.speed_cap_m_s = table.find_value(find_spec("road.speed_cap"));
    table.reject_unknown_keys();
    if (!from || !to) return std::nullopt;
    stretch.from_m = *from;
    stretch.to_m = *to;
    stretch.line = node.place.line;
    return stretch;
}

// A cell as a node, so that both kinds of stretches are read by the same words.
Node make_cell_node(const input::CsvTable& table, const input::CsvCell& cell) {
    Node node;
    node.kind = input::NodeKind::kString;
    node.text = cell.text;
    node.place = node.key_place = table.place_of(cell);
    return node;
}

const input::CsvCell* find_cell(const input::CsvTable& table, std::size_t row,
                                std::string_view name) {
    const auto column = table.find_column(name);
    if (!column || table.rows[row][*column].text.empty()) return nullptr;
    return &table.rows[row][*column];
}

void read_stretch_file(Draft& draft, const Node& node, CourseRequest& request) {
    using input::Need;
    const std::string path = input::resolve_path(node);
    const auto table = input::read_csv(path, draft.problems, node.place);
    if (!table) return;
    request.stretch_file = path;
    table->check_columns(
        {"from", "to", "name", "surface", "shelter", "debris", "speed_cap"},
        draft.problems);
    const auto from = table->read_column("from", input::Dimension::kLength,
                                         Need::kRequired, draft.problems);
    const auto to = table->read_column("to", input::Dimension::kLength, Need::kRequired,
                                       draft.problems);
    const auto caps = table->read_column("speed_cap", input::Dimension::kSpeed,
                                         Need::kOptional, draft.problems);
    const auto names = table->read_text_column("name", Need::kOptional, draft.problems);
    for (std::size_t i = 0; i < table->rows.size(); ++i) {
        if (i >= from.size() || i >= to.size() || !from[i] || !to[i]) continue;
        Stretch stretch;
        stretch.from_m = *from[i];
        stretch.to_m = *to[i];
        stretch.line = table->rows[i].front().line;
        if (i < names.size()) stretch.name = names[i];
        if (i < caps.size()) stretch.speed_cap_m_s = caps[i];
        if (const auto* cell = find_cell(*table, i, "surface")) {
            stretch.surface =
                read_surface(make_cell_node(*table, *cell), "surface", draft.problems);
        }
        if (const auto* cell = find_cell(*table, i, "shelter")) {
            stretch.shelter = read_shelter(make_cell_node(*table, *cell), draft.problems);
        }
        if (const auto* cell = find_cell(*table, i, "debris")) {
            stretch.debris = read_value(make_cell_node(*table, *cell),
                                        find_spec("road.debris"), draft.problems);
        }
        request.stretches.push_back(std::move(stretch));
    }
}

}  // namespace

// "open", "hedged", "wood" or a number.
std::optional<double> read_shelter(const Node& node, base::ProblemList& problems) {
    struct Surrounding {
        const char* word;
        double ratio;
    };
    // Rider wind / wind at 10 m. Assumption, +-.15.
    static constexpr Surrounding kSurroundings[] = {
        {"open", course::kOpenShelter}, {"hedged", 0.45}, {"wood", 0.3}};
    if (node.is(input::NodeKind::kString)) {
        for (const Surrounding& known : kSurroundings) {
            if (fold_case(node.text) == known.word) return known.ratio;
        }
        if (!input::parse_quantity(node.text, input::Dimension::kNumber)) {
            problems.add_error(node.place,
                               fmt::format("road.shelter cannot be \"{}\"", node.text),
                               find_spec("road.shelter").advice);
            return std::nullopt;
        }
    }
    return read_value(node, find_spec("road.shelter"), problems);
}

std::optional<course::Surface> read_surface(const Node& node, const std::string& what,
                                            base::ProblemList& problems) {
    const auto word = match_word(node, what, surface_words(), problems);
    if (!word) return std::nullopt;
    return static_cast<course::Surface>(*word);
}

void read_stretches(Draft& draft, Table& road, CourseRequest& request) {
    if (const Node* node = road.find("stretches")) {
        if (node->is(input::NodeKind::kString)) {
            read_stretch_file(draft, *node, request);
        } else {
            road.add_error(*node, "road.stretches is no file",
                           "write stretches = \"stretches.csv\", or [[road.stretch]]");
        }
    }
    const Node* list = road.find("stretch");
    if (!list) return;
    if (!list->is_table_list()) {
        road.add_error(*list, "road.stretch is no list of tables",
                       "write [[road.stretch]]");
        return;
    }
    if (request.stretch_file.empty()) request.stretch_file = list->place.file;
    for (const Node& item : list->items) {
        if (auto stretch = read_stretch(draft, item)) {
            request.stretches.push_back(std::move(*stretch));
        }
    }
}

}  // namespace flattail::scenario
