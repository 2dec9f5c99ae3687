#include "publish/pages/text_table.h"

#include <algorithm>

#include "base/expects.h"
#include "publish/pages/text.h"

namespace flattail::publish {

namespace {

int measure_column(const TextTable& table, std::size_t column) {
    int width = 0;
    for (const std::string& line : table.columns[column].heading) {
        width = std::max(width, measure_width(line));
    }
    for (const TextRow& row : table.rows) {
        width = std::max(width, measure_width(row.cells[column]));
    }
    return width;
}

std::vector<int> measure_columns(const TextTable& table) {
    std::vector<int> widths;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        widths.push_back(measure_column(table, i));
    }
    return widths;
}

int measure_names(const TextTable& table, int most) {
    int width = measure_width(table.corner);
    for (const TextRow& row : table.rows) {
        width = std::max(width, measure_width(row.mark) + measure_width(row.name));
    }
    return std::min(width, most);
}

std::string align_cell(const std::string& cell, const TextColumn& column, int width) {
    const std::string gap(static_cast<std::size_t>(column.gap), ' ');
    return gap +
           (column.align == Align::kEnd ? pad_start(cell, width) : pad_end(cell, width));
}

std::string trim_end(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line;
}

// Headings stand on the figures: short ones begin further down.
std::vector<std::string> lay_heading(const TextTable& table,
                                     const std::vector<int>& widths, int name_width) {
    std::size_t depth = table.corner.empty() ? 0 : 1;
    for (const TextColumn& column : table.columns) {
        depth = std::max(depth, column.heading.size());
    }
    std::vector<std::string> lines;
    for (std::size_t from_end = depth; from_end > 0; --from_end) {
        std::string line = pad_end(
            from_end == 1 ? shorten_end(table.corner, name_width) : "", name_width);
        for (std::size_t i = 0; i < table.columns.size(); ++i) {
            const std::vector<std::string>& heading = table.columns[i].heading;
            const bool has_line = from_end <= heading.size();
            line += align_cell(has_line ? heading[heading.size() - from_end] : "",
                               table.columns[i], widths[i]);
        }
        lines.push_back(trim_end(std::move(line)));
    }
    return lines;
}

}  // namespace

std::string paint(const std::string& line, Ink ink, Colour colour) {
    if (colour == Colour::kNone || ink == Ink::kPlain || line.empty()) return line;
    const char* code = ink == Ink::kStrong ? "1" : ink == Ink::kFaint ? "2" : "33";
    return std::string("\x1b[") + code + "m" + line + "\x1b[0m";
}

int measure_figures(const TextTable& table) {
    int width = 0;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        width += table.columns[i].gap + measure_column(table, i);
    }
    return width;
}

std::vector<std::string> lay_table(const TextTable& table, const PageOptions& options) {
    const std::vector<int> widths = measure_columns(table);
    const int most = std::max(options.width - measure_figures(table), kFewestNameColumns);
    const int name_width = measure_names(table, most);
    int mark_width = 0;
    std::vector<std::string> names;
    for (const TextRow& row : table.rows) {
        FLATTAIL_EXPECTS(row.cells.size() == table.columns.size());
        mark_width = std::max(mark_width, measure_width(row.mark));
        names.push_back(row.name);
    }
    names = shorten_names(names, name_width - mark_width);

    std::vector<std::string> lines;
    for (const std::string& line : lay_heading(table, widths, name_width)) {
        lines.push_back(paint(line, Ink::kStrong, options.colour));
    }
    for (std::size_t r = 0; r < table.rows.size(); ++r) {
        const TextRow& row = table.rows[r];
        std::string line = pad_end(pad_end(row.mark, mark_width) + names[r], name_width);
        for (std::size_t i = 0; i < row.cells.size(); ++i) {
            line += align_cell(row.cells[i], table.columns[i], widths[i]);
        }
        lines.push_back(paint(trim_end(std::move(line)), row.ink, options.colour));
    }
    return lines;
}

}  // namespace flattail::publish
