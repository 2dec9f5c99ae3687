// A CSV file as rows of text with places, and its columns as quantities.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem_list.h"
#include "input/units/clock.h"
#include "input/units/quantity.h"

namespace flattail::input {

struct CsvCell {
    std::string text;  ///< unquoted, outer blanks of unquoted cells removed
    int line = 0;
    int column = 0;
};

struct CsvColumn {
    std::string header;  ///< as written: "distance [km]"
    std::string name;    ///< lower case, without the unit: "distance"
    std::string unit;    ///< "km", or empty when the header names none
    Place place;
};

enum class Need { kRequired, kOptional };

/// Quantities of one column, one per row; a row without a value holds nothing. Empty when
/// the column is absent.
using CsvQuantities = std::vector<std::optional<double>>;

/// A table with a header, at least one row, and as many cells in each row as in the
/// header.
class CsvTable {
  public:
    std::string file;
    char delimiter = ',';
    std::vector<CsvColumn> columns;
    std::vector<std::vector<CsvCell>> rows;

    /// By the header as written or by its name without the unit; letter case is ignored.
    std::optional<std::size_t> find_column(std::string_view name) const;
    bool has_column(std::string_view name) const { return find_column(name).has_value(); }
    Place place_of(const CsvCell& cell) const { return {file, cell.line, cell.column}; }

    /// Every value in SI. The unit stands in the header (`distance_km`, `distance [km]`)
    /// or in the cell ("12 km"). A required column must be there and have no empty cell.
    CsvQuantities read_column(std::string_view name, Dimension dimension, Need need,
                              base::ProblemList& problems) const;
    /// The column as text, one per row; an empty vector when it is absent.
    std::vector<std::string> read_text_column(std::string_view name, Need need,
                                              base::ProblemList& problems) const;
    /// The column as times of day.
    std::vector<std::optional<ClockTime>> read_clock_column(
        std::string_view name, Need need, base::ProblemList& problems) const;
    /// A problem for each column whose name is not among `known`, with the nearest of
    /// them.
    void check_columns(const std::vector<std::string>& known,
                       base::ProblemList& problems) const;
};

/// RFC 4180 with comma, semicolon or tab (the header tells), LF or CRLF, blank lines
/// skipped. A decimal comma is allowed unless the comma separates cells.
/// Errors: nothing after adding problems: empty, no rows, ragged rows, stray quotes, a
///         header that is missing or twice there, too large, zero bytes, not UTF-8.
std::optional<CsvTable> read_csv(const std::string& path, base::ProblemList& problems,
                                 const Place& asked_at = {});
std::optional<CsvTable> read_csv_text(std::string text, const std::string& name,
                                      base::ProblemList& problems);

}  // namespace flattail::input
