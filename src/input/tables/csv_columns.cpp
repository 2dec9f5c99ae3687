// Columns of a CSV table as quantities, text and times.
#include <fmt/format.h>

#include <algorithm>

#include "input/tables/csv.h"
#include "input/text/capped_problems.h"
#include "input/text/number_text.h"
#include "input/text/text_file.h"

namespace flattail::input {

namespace {

std::vector<std::string> list_names(const CsvTable& table) {
    std::vector<std::string> names;
    for (const CsvColumn& column : table.columns) names.push_back(column.name);
    return names;
}

std::string join(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) {
        if (!text.empty()) text += ", ";
        text += word;
    }
    return text;
}

void report_missing_column(const CsvTable& table, std::string_view name,
                           base::ProblemList& problems) {
    const std::vector<std::string> names = list_names(table);
    const std::string nearest = base::find_nearest_name(std::string(name), names);
    problems.add_error({table.file, table.columns.front().place.line, 0},
                       fmt::format("has no column {} (it has: {})", name, join(names)),
                       nearest.empty() ? fmt::format("add a column {}", name)
                                       : fmt::format("rename {} to {}", nearest, name));
}

std::optional<std::size_t> find_needed(const CsvTable& table, std::string_view name,
                                       Need need, base::ProblemList& problems) {
    const std::optional<std::size_t> column = table.find_column(name);
    if (!column && need == Need::kRequired) report_missing_column(table, name, problems);
    return column;
}

// "12,5 km" as "12.5 km" where the comma does not separate cells.
std::string read_decimal_comma(std::string_view text) {
    std::string result(text);
    const std::size_t comma = result.find(',');
    const bool single = comma != std::string::npos && comma > 0 &&
                        comma + 1 < result.size() && is_digit(result[comma - 1]) &&
                        is_digit(result[comma + 1]) &&
                        result.find_first_of(",.", comma + 1) == std::string::npos &&
                        result.find('.') == std::string::npos;
    if (single) result[comma] = '.';
    return result;
}

bool is_bare_number(std::string_view text) {
    return static_cast<bool>(parse_number(text));
}

Parsed<double> parse_cell(const std::string& text, const CsvColumn& column,
                          Dimension dimension) {
    if (!column.unit.empty() && is_bare_number(text)) {
        return parse_quantity_in(text, column.unit, dimension);
    }
    return parse_quantity(text, dimension);
}

// Rates are written out in every cell and have no unit of their own.
bool wants_unit_in_header(Dimension dimension) {
    return !suggest_unit(dimension).empty() && !accept_bare_number(0.5, "0.5", dimension);
}

// One problem for the whole column, where the unit would best be written.
bool lacks_unit(const CsvTable& table, std::size_t index, Dimension dimension,
                base::ProblemList& problems) {
    const CsvColumn& column = table.columns[index];
    if (!column.unit.empty() || !wants_unit_in_header(dimension)) return false;
    for (const std::vector<CsvCell>& row : table.rows) {
        if (!is_bare_number(table.delimiter == ','
                                ? row[index].text
                                : read_decimal_comma(row[index].text))) {
            continue;
        }
        const std::string usual(suggest_unit(dimension));
        problems.add_error(
            column.place,
            fmt::format("column {} has no unit ({} needs one)", column.header,
                        describe_dimension(dimension)),
            fmt::format("name it in the header, such as {} [{}]", column.header, usual));
        return true;
    }
    return false;
}

// Columns whose unit measures something else are wrong once, not in every row.
bool has_wrong_unit(const CsvColumn& column, Dimension dimension,
                    base::ProblemList& problems) {
    if (column.unit.empty()) return false;
    const Parsed<double> one = parse_quantity_in("0.5", column.unit, dimension);
    if (one) return false;
    problems.add_error(
        column.place,
        fmt::format("column {}: unit {} does not fit ({} is wanted)", column.header,
                    column.unit, describe_dimension(dimension)),
        fmt::format("write the column as {} [{}]", column.name, suggest_unit(dimension)));
    return true;
}

void report_cell(CappedProblems& capped, const CsvTable& table, const CsvCell& cell,
                 const CsvColumn& column, const Refusal& refusal) {
    capped.add_error(table.place_of(cell),
                     fmt::format("{}: {}", column.name, refusal.what),
                     format_hint(refusal, ""));
}

Refusal refuse_empty(std::string_view hint) {
    return {"the cell is empty", std::string(hint), ""};
}

}  // namespace

std::optional<std::size_t> CsvTable::find_column(std::string_view name) const {
    const std::string wanted = to_lower(trim(name));
    const auto as_written = std::find_if(
        columns.begin(), columns.end(),
        [&](const CsvColumn& column) { return to_lower(column.header) == wanted; });
    const auto by_name =
        std::find_if(columns.begin(), columns.end(),
                     [&](const CsvColumn& column) { return column.name == wanted; });
    const auto found = as_written != columns.end() ? as_written : by_name;
    if (found == columns.end()) return std::nullopt;
    return static_cast<std::size_t>(found - columns.begin());
}

CsvQuantities CsvTable::read_column(std::string_view name, Dimension dimension, Need need,
                                    base::ProblemList& problems) const {
    const std::optional<std::size_t> index = find_needed(*this, name, need, problems);
    if (!index) return {};
    const CsvColumn& column = columns[*index];
    CsvQuantities values(rows.size());
    if (has_wrong_unit(column, dimension, problems)) return values;
    if (lacks_unit(*this, *index, dimension, problems)) return values;
    CappedProblems capped(problems);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const CsvCell& cell = rows[i][*index];
        if (cell.text.empty()) {
            if (need == Need::kRequired) {
                report_cell(capped, *this, cell, column,
                            refuse_empty("write a value in every row of this column"));
            }
            continue;
        }
        const std::string text =
            delimiter == ',' ? cell.text : read_decimal_comma(cell.text);
        const Parsed<double> value = parse_cell(text, column, dimension);
        if (value) {
            values[i] = *value;
        } else {
            report_cell(capped, *this, cell, column, value.refusal());
        }
    }
    capped.finish(fmt::format("correct column {}", column.name));
    return values;
}

std::vector<std::string> CsvTable::read_text_column(std::string_view name, Need need,
                                                    base::ProblemList& problems) const {
    const std::optional<std::size_t> index = find_needed(*this, name, need, problems);
    if (!index) return {};
    std::vector<std::string> values;
    CappedProblems capped(problems);
    for (const std::vector<CsvCell>& row : rows) {
        const CsvCell& cell = row[*index];
        if (cell.text.empty() && need == Need::kRequired) {
            report_cell(capped, *this, cell, columns[*index],
                        refuse_empty("write some text in every row of this column"));
        }
        values.push_back(cell.text);
    }
    capped.finish(fmt::format("correct column {}", columns[*index].name));
    return values;
}

std::vector<std::optional<ClockTime>> CsvTable::read_clock_column(
    std::string_view name, Need need, base::ProblemList& problems) const {
    const std::optional<std::size_t> index = find_needed(*this, name, need, problems);
    if (!index) return {};
    std::vector<std::optional<ClockTime>> values(rows.size());
    CappedProblems capped(problems);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const CsvCell& cell = rows[i][*index];
        if (cell.text.empty() && need == Need::kOptional) continue;
        const Parsed<ClockTime> clock = parse_clock(cell.text);
        if (clock) {
            values[i] = *clock;
        } else {
            report_cell(capped, *this, cell, columns[*index], clock.refusal());
        }
    }
    capped.finish(fmt::format("correct column {}", columns[*index].name));
    return values;
}

void CsvTable::check_columns(const std::vector<std::string>& known,
                             base::ProblemList& problems) const {
    for (const CsvColumn& column : columns) {
        const bool is_known =
            std::any_of(known.begin(), known.end(), [&](const std::string& name) {
                return name == column.name || name == to_lower(column.header);
            });
        if (is_known) continue;
        const std::string nearest = base::find_nearest_name(column.name, known);
        problems.add_error(
            column.place, fmt::format("column {} is not known", column.header),
            nearest.empty() ? fmt::format("take it out, or use one of {}", join(known))
                            : fmt::format("rename it to {}", nearest));
    }
}

}  // namespace flattail::input
