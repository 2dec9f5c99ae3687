#include "input/tables/csv_header.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "input/text/text_file.h"

namespace flattail::input {

namespace {

struct NameAndUnit {
    std::string name;
    std::string unit;
};

// "distance [km]" or "distance (km)".
std::optional<NameAndUnit> split_brackets(std::string_view header) {
    const char close = header.empty() ? '\0' : header.back();
    if (close != ']' && close != ')') return std::nullopt;
    const std::size_t open = header.rfind(close == ']' ? '[' : '(');
    if (open == std::string_view::npos || open == 0) return std::nullopt;
    return NameAndUnit{
        to_lower(trim(header.substr(0, open))),
        std::string(trim(header.substr(open + 1, header.size() - open - 2)))};
}

// The last pieces of a name as a unit: "km" as it is, "km_h" as "km/h", "percent" as "%".
std::string spell_unit(std::string_view piece) {
    if (piece == "percent" || piece == "pct") return "%";
    if (piece == "c") return "C";  // as headers in lower case have it
    std::string unit(piece);
    std::replace(unit.begin(), unit.end(), '_', '/');
    return find_unit(unit) ? unit : std::string();
}

// "wind_km_h": the longest tail that is a unit.
std::optional<NameAndUnit> split_tail(std::string_view header) {
    for (std::size_t at = header.find('_', 1); at != std::string_view::npos;
         at = header.find('_', at + 1)) {
        std::string unit = spell_unit(header.substr(at + 1));
        if (!unit.empty())
            return NameAndUnit{to_lower(header.substr(0, at)), std::move(unit)};
    }
    return std::nullopt;
}

CsvColumn read_column_header(const CsvCell& cell, const std::string& file) {
    const std::string_view header = trim(cell.text);
    std::optional<NameAndUnit> parts = split_brackets(header);
    if (!parts) parts = split_tail(header);
    if (!parts) parts = NameAndUnit{to_lower(header), ""};
    return {std::string(header),
            std::move(parts->name),
            std::move(parts->unit),
            {file, cell.line, cell.column}};
}

}  // namespace

std::vector<CsvColumn> read_header(const std::vector<CsvCell>& cells,
                                   const std::string& file, base::ProblemList& problems) {
    std::vector<CsvColumn> columns;
    for (const CsvCell& cell : cells) {
        CsvColumn column = read_column_header(cell, file);
        const auto twin =
            std::find_if(columns.begin(), columns.end(), [&](const CsvColumn& other) {
                return !column.name.empty() && other.name == column.name;
            });
        if (column.name.empty()) {
            problems.add_error(column.place,
                               fmt::format("column {} has no name", columns.size() + 1),
                               "name it in the header, or take the column out");
        } else if (twin != columns.end()) {
            problems.add_error(column.place,
                               fmt::format("column {} is there twice (also in column {})",
                                           column.name, twin - columns.begin() + 1),
                               "keep one of the two, or rename it");
        }
        columns.push_back(std::move(column));
    }
    return columns;
}

}  // namespace flattail::input
