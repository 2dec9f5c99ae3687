// A table of text: one column of names that gives way, and columns of figures.
#pragma once

#include <string>
#include <vector>

#include "flattail/publish.h"

namespace flattail::publish {

enum class Ink { kPlain, kStrong, kFaint, kWarning };

/// The line in a colour of the terminal (ECMA-48), or as it is.
std::string paint(const std::string& line, Ink ink, Colour colour);

enum class Align { kStart, kEnd };

struct TextColumn {
    std::vector<std::string> heading;  ///< lines, the last one next to the figures
    Align align = Align::kEnd;
    int gap = 2;  ///< blanks before the column
};

struct TextRow {
    std::string mark;  ///< "> ", "x " or "  " before the name
    std::string name;
    std::vector<std::string> cells;  ///< one per column
    Ink ink = Ink::kPlain;
};

struct TextTable {
    std::string corner;  ///< heading of the names
    std::vector<TextColumn> columns;
    std::vector<TextRow> rows;
};

/// Lines of at most options.width columns, as long as the figures leave room for names:
/// figures are never cut, names are.
std::vector<std::string> lay_table(const TextTable& table, const PageOptions& options);

/// The width that the columns of figures take, gaps included.
int measure_figures(const TextTable& table);

/// Fewest columns left for names.
inline constexpr int kFewestNameColumns = 8;

}  // namespace flattail::publish
