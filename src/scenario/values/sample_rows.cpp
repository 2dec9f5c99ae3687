#include "scenario/values/sample_rows.h"

#include <fmt/format.h>

#include <cstdint>
#include <filesystem>

#include "input/tables/csv.h"
#include "input/toml/node_values.h"
#include "scenario/values/table.h"

namespace flattail::scenario {

namespace {

using input::CsvTable;
using input::Node;

// A file is the same one wherever a copy of it lies: its name and what stands in it.
std::string name_draws(const CsvTable& table) {
    constexpr std::uint64_t kPrime = 0x100000001b3u;
    std::uint64_t hash = 0xcbf29ce484222325u;
    const auto add = [&](const std::string& text) {
        for (const char letter : text) {
            hash = (hash ^ static_cast<unsigned char>(letter)) * kPrime;
        }
        hash *= kPrime;  // the end of a cell
    };
    for (const auto& column : table.columns) add(column.header);
    for (const auto& row : table.rows) {
        for (const auto& cell : row) add(cell.text);
    }
    return fmt::format("samples {} {:016x}",
                       std::filesystem::path(table.file).filename().string(), hash);
}

std::string list_columns(const CsvTable& table) {
    Words names;
    for (const auto& column : table.columns) names.push_back(column.name);
    return list_words(names);
}

std::optional<std::string> find_column(const CsvTable& table, const Node& file,
                                       const Node* column, const Spec& spec,
                                       base::ProblemList& problems) {
    if (column) {
        const auto name = input::read_text(*column, problems);
        if (!name || table.has_column(*name)) return name;
        problems.add_error(column->place,
                           fmt::format("{} has no column \"{}\"", file.text, *name),
                           "write one of its columns: " + list_columns(table));
        return std::nullopt;
    }
    for (const std::string& name : {spec.name, key_of(spec)}) {
        if (table.has_column(name)) return name;
    }
    problems.add_error(
        file.place,
        fmt::format("{} has no column \"{}\" for {}", file.text, key_of(spec), spec.name),
        fmt::format("name a column of it: column = {}", list_columns(table)));
    return std::nullopt;
}

}  // namespace

std::optional<SampleRows> read_sample_rows(const Node& file, const Node* column,
                                           const Spec& spec,
                                           base::ProblemList& problems) {
    if (!input::read_text(file, problems)) return std::nullopt;
    const int errors_before = problems.error_count();
    const auto table = input::read_csv(input::resolve_path(file), problems, file.place);
    if (!table) return std::nullopt;
    const auto name = find_column(*table, file, column, spec, problems);
    if (!name) return std::nullopt;
    SampleRows rows;
    const auto cells =
        table->read_column(*name, spec.dimension, input::Need::kRequired, problems);
    const std::size_t at = *table->find_column(*name);
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (!cells[i]) continue;
        rows.values.push_back(*cells[i]);
        check_limits(*cells[i], spec, table->place_of(table->rows[i][at]), problems);
    }
    if (problems.error_count() == errors_before && rows.values.size() < 2) {
        problems.add_error(
            file.place,
            fmt::format("{} has one row, which leaves nothing to draw", file.text),
            "write the value itself, or a file with many rows");
    }
    if (problems.error_count() != errors_before) return std::nullopt;
    rows.draw_name = name_draws(*table);
    rows.file = file.text;
    return rows;
}

}  // namespace flattail::scenario
