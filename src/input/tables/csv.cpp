#include "input/tables/csv.h"

#include <csv.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "input/tables/csv_header.h"
#include "input/text/capped_problems.h"
#include "input/text/text_file.h"

namespace flattail::input {

namespace {

// About half a million rows of a log; a larger file is most probably the wrong one.
constexpr std::size_t kMostBytes = 64'000'000;

using Rows = std::vector<std::vector<CsvCell>>;

// The sign that stands most often in the first line with text; the later one on a tie,
// since a decimal comma may stand beside semicolons.
char detect_delimiter(std::string_view text) {
    const std::size_t start = std::min(text.find_first_not_of("\r\n"), text.size());
    const std::string_view line =
        text.substr(start, text.find_first_of("\r\n", start) - start);
    constexpr std::array<char, 3> kSigns = {',', ';', '\t'};
    std::array<int, 3> counts{};
    bool quoted = false;
    for (const char c : line) {
        if (c == '"') quoted = !quoted;
        for (std::size_t i = 0; i < kSigns.size(); ++i) {
            if (!quoted && c == kSigns[i]) ++counts[i];
        }
    }
    std::size_t best = 0;
    for (std::size_t i = 1; i < kSigns.size(); ++i) {
        if (counts[i] > 0 && counts[i] >= counts[best]) best = i;
    }
    return kSigns[best];
}

// libcsv tells what a cell holds, not where it stood. Fed one byte at a time, the end of
// a cell is the byte just fed, and the next cell starts behind it.
class RowReader {
  public:
    RowReader(const TextFile& file, char delimiter)
        : text_(file.text), places_(file.text, file.name), delimiter_(delimiter) {
        csv_init(&parser_, CSV_STRICT | CSV_STRICT_FINI);
        csv_set_delim(&parser_, static_cast<unsigned char>(delimiter));
    }
    ~RowReader() { csv_free(&parser_); }
    RowReader(const RowReader&) = delete;
    RowReader& operator=(const RowReader&) = delete;

    Rows read(base::ProblemList& problems) {
        for (at_ = 0; at_ < text_.size(); ++at_) {
            if (csv_parse(&parser_, text_.data() + at_, 1, take_cell, take_row, this) ==
                1) {
                continue;
            }
            problems.add_error(
                places_.at(at_), "has a quote in the middle of a cell",
                "put the whole cell in quotes and double each quote inside");
            return {};
        }
        const std::size_t open = find_cell_start();
        if (csv_fini(&parser_, take_cell, take_row, this) != 0) {
            problems.add_error(places_.at(open), "opens a quote that is never closed",
                               "close it with \" at the end of the cell");
            return {};
        }
        return std::move(rows_);
    }

  private:
    // Blanks before a cell do not belong to it; neither do empty lines before a row.
    std::size_t find_cell_start() const {
        std::size_t start = cell_start_;
        while (start < text_.size()) {
            const char c = text_[start];
            const bool blank = (c == ' ' || c == '\t') && c != delimiter_;
            const bool empty_line = row_.empty() && (c == '\r' || c == '\n');
            if (!blank && !empty_line) break;
            ++start;
        }
        return start;
    }

    static void take_cell(void* bytes, std::size_t size, void* self) {
        RowReader& reader = *static_cast<RowReader*>(self);
        const Place place = reader.places_.at(reader.find_cell_start());
        reader.row_.push_back({std::string(static_cast<const char*>(bytes), size),
                               place.line, place.column});
        reader.cell_start_ = reader.at_ + 1;
    }

    static void take_row(int, void* self) {
        RowReader& reader = *static_cast<RowReader*>(self);
        const bool empty =
            std::all_of(reader.row_.begin(), reader.row_.end(),
                        [](const CsvCell& cell) { return cell.text.empty(); });
        if (!empty) reader.rows_.push_back(std::move(reader.row_));
        reader.row_.clear();
        reader.cell_start_ = reader.at_ + 1;
    }

    csv_parser parser_{};
    std::string_view text_;
    TextPlaces places_;
    char delimiter_;
    std::size_t at_ = 0;
    std::size_t cell_start_ = 0;
    std::vector<CsvCell> row_;
    Rows rows_;
};

std::string count_cells(std::size_t count) {
    return count == 1 ? std::string("1 cell") : fmt::format("{} cells", count);
}

void check_row_sizes(const CsvTable& table, base::ProblemList& problems) {
    CappedProblems capped(problems);
    for (const std::vector<CsvCell>& row : table.rows) {
        if (row.size() == table.columns.size()) continue;
        const bool more = row.size() > table.columns.size();
        const CsvCell& cell = more ? row[table.columns.size()] : row.front();
        capped.add_error(
            table.place_of(cell),
            fmt::format("the row has {} and the header {}", count_cells(row.size()),
                        table.columns.size()),
            more ? "take the extra cells out, or put text with commas in quotes"
                 : "fill the row up; an unknown value is an empty cell");
    }
    capped.finish("give each row as many cells as the header");
}

// The first line that says something; scenarios begin with remarks.
std::string_view find_first_line(std::string_view text) {
    while (true) {
        const std::size_t start = text.find_first_not_of(" \t\r\n");
        if (start == std::string_view::npos) return {};
        text.remove_prefix(start);
        const std::string_view line = text.substr(0, text.find_first_of("\r\n"));
        if (line.front() != '#') return line;
        text.remove_prefix(line.size());
    }
}

// A file of another kind is told by its first letters, not by its first odd quote.
const char* find_other_kind(std::string_view text) {
    const std::string_view line = find_first_line(text);
    if (line.starts_with('<')) return "is XML, perhaps a GPX track,";
    if (line.starts_with('{')) return "is JSON";
    const bool assigns =
        line.find('=') < std::min(line.find_first_of(",;\t\""), line.size());
    return assigns || line.starts_with('[') ? "is TOML, perhaps a scenario," : nullptr;
}

std::optional<CsvTable> make_table(const TextFile& file, base::ProblemList& problems) {
    if (const char* kind = find_other_kind(file.text)) {
        problems.add_error({file.name, 1, 1},
                           fmt::format("{} and no table of columns (CSV)", kind),
                           "name a file whose first line holds names of columns");
        return std::nullopt;
    }
    const int before = problems.error_count();
    CsvTable table;
    table.file = file.name;
    table.delimiter = detect_delimiter(file.text);
    Rows rows = RowReader(file, table.delimiter).read(problems);
    if (problems.error_count() > before) return std::nullopt;
    if (rows.empty()) {
        problems.add_error(
            {file.name, 0, 0}, "is empty",
            "write a header line with column names, then one line per row");
        return std::nullopt;
    }
    table.columns = read_header(rows.front(), file.name, problems);
    rows.erase(rows.begin());
    table.rows = std::move(rows);
    if (table.rows.empty()) {
        problems.add_error({file.name, table.columns.front().place.line, 0},
                           "has a header and no rows",
                           "add at least one row below the header");
    }
    check_row_sizes(table, problems);
    if (problems.error_count() > before) return std::nullopt;
    return table;
}

}  // namespace

std::optional<CsvTable> read_csv_text(std::string text, const std::string& name,
                                      base::ProblemList& problems) {
    const auto file = check_text(std::move(text), name, kMostBytes, problems);
    return file ? make_table(*file, problems) : std::nullopt;
}

std::optional<CsvTable> read_csv(const std::string& path, base::ProblemList& problems,
                                 const Place& asked_at) {
    const auto file = read_text_file(path, kMostBytes, problems, asked_at);
    return file ? make_table(*file, problems) : std::nullopt;
}

}  // namespace flattail::input
