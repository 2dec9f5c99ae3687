// A table of athletes as scenarios with settings.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>

#include "base/problem_list.h"
#include "flattail/publish.h"
#include "flattail/roster.h"
#include "input/tables/csv.h"

namespace flattail {

namespace {

// Columns that coaches write without their table.
const std::map<std::string, std::string> kShort{
    {"name", "rider.name"},     {"mass", "rider.mass"},
    {"power", "rider.power"},   {"position", "rider.position"},
    {"repair", "rider.repair"}, {"goal", "race.goal"},
    {"cutoff", "race.cutoff"},  {"bike_start", "race.bike_start"}};
const std::set<std::string> kTables{"race",  "rider",  "weather",     "road",
                                    "flats", "repair", "preparation", "decision",
                                    "setup", "rim",    "tyre",        "inner"};
constexpr std::size_t kMostAthletes = 2000;

// The key of a column: as written, without a unit at its end.
std::string name_key(const input::CsvColumn& column) {
    const std::string key =
        column.unit.empty() ? column.header : column.header.substr(0, column.name.size());
    const auto known = kShort.find(column.name);
    return known == kShort.end() ? key : known->second;
}

bool is_own_column(const std::string& key) {
    return key == "scenario" || key == "setups" || key == "kit";
}

// A text that stays a text whatever stands in it (TOML basic string).
std::string quote(const std::string& text) {
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') quoted += '\\';
        quoted += c;
    }
    return quoted + '"';
}

std::vector<std::string> split_list(const std::string& text) {
    std::vector<std::string> items;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find(';', at), text.size());
        std::string item = text.substr(at, end - at);
        item.erase(0, item.find_first_not_of(' '));
        item.erase(item.find_last_not_of(' ') + 1);
        if (!item.empty()) items.push_back(quote(item));
        at = end + 1;
    }
    return items;
}

bool is_number(const std::string& text) {
    return !text.empty() && text.find_first_not_of("0123456789.,+-") == std::string::npos;
}

// Where semicolons or tabs part the cells, a comma between digits is a decimal point.
std::string settle_commas(std::string text, char delimiter) {
    const auto is_digit = [&](std::size_t i) {
        return i < text.size() && text[i] >= '0' && text[i] <= '9';
    };
    for (std::size_t i = 1; delimiter != ',' && i < text.size(); ++i) {
        if (text[i] == ',' && is_digit(i - 1) && is_digit(i + 1)) text[i] = '.';
    }
    return text;
}

std::string write_setting(const std::string& key, const input::CsvColumn& column,
                          const std::string& cell, char delimiter) {
    if (key == "setups" || key == "kit") {
        return fmt::format("{} = [{}]", key == "setups" ? "owned" : key,
                           fmt::join(split_list(cell), ", "));
    }
    if (key == "rider.name" || key == "race.name") return key + "=" + quote(cell);
    const std::string value = settle_commas(cell, delimiter);
    if (!column.unit.empty() && is_number(value)) {
        return fmt::format("{}={} {}", key, value, column.unit);
    }
    return key + "=" + value;
}

std::string find_beside(const std::string& roster, const std::string& scenario) {
    const std::filesystem::path path(scenario);
    if (path.is_absolute()) return scenario;
    return (std::filesystem::path(roster).parent_path() / path).string();
}

void check_columns(const input::CsvTable& table, base::ProblemList& problems) {
    std::vector<std::string> known{"scenario", "setups", "kit"};
    for (const auto& [word, key] : kShort) known.push_back(word);
    for (const input::CsvColumn& column : table.columns) {
        const std::string key = name_key(column);
        const bool has_table = kTables.count(key.substr(0, key.find('.'))) > 0 &&
                               key.find('.') != std::string::npos;
        if (is_own_column(key) || has_table) continue;
        const std::string nearest = suggest_name(key, known);
        problems.add_error(
            column.place, fmt::format("column \"{}\" is no key of a scenario", key),
            nearest.empty() ? "write the key with its table, like rider.mass"
                            : fmt::format("did you mean \"{}\"?", nearest));
    }
}

// Folders of athletes with the same name are numbered; index.html and roster.csv lie
// beside them.
std::string name_folder(const std::string& athlete, std::set<std::string>& taken) {
    const std::string wanted = name_directory(athlete);
    std::string name = wanted;
    for (int number = 2; !taken.insert(name).second; ++number) {
        name = fmt::format("{}-{}", wanted, number);
    }
    return name;
}

class RowReader {
  public:
    RowReader(const input::CsvTable& table, std::string scenario_path,
              const std::vector<std::string>& settings)
        : table_(table), scenario_path_(std::move(scenario_path)), settings_(settings) {}

    RosterRow read(std::size_t index, std::set<std::string>& taken,
                   base::ProblemList& problems) const {
        RosterRow row;
        row.source.path = scenario_path_;
        row.source.settings = settings_;
        const auto& cells = table_.rows[index];
        row.place = {table_.file, cells.front().line, 1};
        for (std::size_t c = 0; c < cells.size(); ++c) {
            const std::string& text = cells[c].text;
            if (text.empty()) continue;
            const std::string key = name_key(table_.columns[c]);
            if (key == "rider.name") row.athlete = text;
            if (key == "scenario") {
                row.source.path = find_beside(table_.file, text);
            } else {
                row.source.settings.push_back(
                    write_setting(key, table_.columns[c], text, table_.delimiter));
            }
        }
        if (row.athlete.empty()) row.athlete = fmt::format("row {}", row.place.line);
        if (row.source.path.empty()) {
            problems.add_error(row.place, row.athlete + " has no scenario",
                               "add a column `scenario`, or name a file before --roster");
        }
        row.folder = name_folder(row.athlete, taken);
        return row;
    }

  private:
    const input::CsvTable& table_;
    std::string scenario_path_;
    const std::vector<std::string>& settings_;
};

}  // namespace

std::vector<RosterRow> read_roster(const std::string& path,
                                   const std::string& scenario_path,
                                   const std::vector<std::string>& settings) {
    base::ProblemList problems;
    const auto table = input::read_csv(path, problems);
    problems.throw_if_errors();
    check_columns(*table, problems);
    if (table->rows.size() > kMostAthletes) {
        problems.add_error({path, 0, 0},
                           fmt::format("more than {} athletes", kMostAthletes),
                           "split the roster");
    }
    problems.throw_if_errors();
    std::vector<RosterRow> rows;
    std::set<std::string> taken;
    const RowReader reader(*table, scenario_path, settings);
    for (std::size_t i = 0; i < table->rows.size(); ++i) {
        rows.push_back(reader.read(i, taken, problems));
    }
    problems.throw_if_errors();
    return rows;
}

}  // namespace flattail
