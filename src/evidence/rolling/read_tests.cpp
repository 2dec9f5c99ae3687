#include "evidence/rolling/read_tests.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "input/tables/csv.h"
#include "input/text/capped_problems.h"
#include "input/text/text_file.h"

namespace flattail::evidence {

namespace {

using input::CsvQuantities;
using input::CsvTable;
using input::Dimension;
using input::Need;

const std::vector<std::string>& known_columns() {
    static const std::vector<std::string> kKnown{
        "source",      "kind",          "product", "method", "tyre",
        "width",       "surface",       "speed",   "load",   "pressure",
        "temperature", "drum_diameter", "watts",   "crr",    "per",
        "spread",      "runs",          "note",    "use"};
    return kKnown;
}

// What a value of a column may be; in the unit beside the words.
struct Limits {
    double least = 0.0;
    double most = 0.0;
    double si = 1.0;
    double zero = 0.0;
    const char* unit = "";
};

class TestReader {
  public:
    TestReader(const CsvTable& table, base::ProblemList& problems)
        : table_(table), problems_(problems) {}

    std::vector<TestRow> read() {
        table_.check_columns(known_columns(), problems_);
        rows_.resize(table_.rows.size());
        read_words();
        read_numbers();
        check_values();
        return std::move(rows_);
    }

  private:
    Place place_of(std::size_t row, const char* column) const {
        const auto index = table_.find_column(column);
        return index ? table_.place_of(table_.rows[row][*index])
                     : table_.place_of(table_.rows[row].front());
    }

    std::vector<std::string> read_texts(const char* column, Need need) {
        std::vector<std::string> texts = table_.read_text_column(column, need, problems_);
        texts.resize(rows_.size());
        return texts;
    }

    // The index of each word among `words`; an empty cell gives nothing.
    std::vector<std::optional<std::size_t>> read_choice(
        const char* column, Need need, const std::vector<std::string>& words) {
        const std::vector<std::string> texts = read_texts(column, need);
        std::vector<std::optional<std::size_t>> choice(rows_.size());
        input::CappedProblems capped(problems_);
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            if (texts[i].empty()) continue;
            const auto found =
                std::find(words.begin(), words.end(), input::to_lower(texts[i]));
            if (found != words.end()) {
                choice[i] = static_cast<std::size_t>(found - words.begin());
                continue;
            }
            capped.add_error(place_of(i, column),
                             fmt::format("{} cannot be \"{}\"", column, texts[i]),
                             fmt::format("write {}", fmt::join(words, ", ")));
        }
        capped.finish(fmt::format("correct column {}", column));
        return choice;
    }

    void read_words() {
        const auto source = read_texts("source", Need::kRequired);
        const auto product = read_texts("product", Need::kRequired);
        const auto tyre = read_texts("tyre", Need::kOptional);
        const auto kind = read_choice("kind", Need::kRequired, {"independent", "maker"});
        const auto method =
            read_choice("method", Need::kRequired, {"drum", "road", "track"});
        const auto surface = read_choice("surface", Need::kOptional,
                                         {"smooth", "ordinary", "coarse", "cobbles"});
        const auto use = read_choice("use", Need::kOptional, {"yes", "no"});
        per_ = read_choice("per", Need::kOptional, {"tyre", "pair"});
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            TestRow& row = rows_[i];
            row.place = {table_.file, table_.rows[i].front().line, 0};
            row.source = source[i];
            row.product = product[i];
            row.tyre = tyre[i];
            row.by_maker = kind[i].value_or(0) == 1;
            row.method = static_cast<TestMethod>(method[i].value_or(0));
            row.is_dropped = use[i].value_or(0) == 1;
            if (surface[i]) row.surface = static_cast<physics::Surface>(*surface[i]);
        }
    }

    // One column of numbers, inside its limits.
    CsvQuantities read_quantities(const char* column, Dimension dimension,
                                  const Limits& limits) {
        CsvQuantities values =
            table_.read_column(column, dimension, Need::kOptional, problems_);
        values.resize(rows_.size());
        input::CappedProblems capped(problems_);
        for (std::size_t i = 0; i < values.size(); ++i) {
            if (!values[i]) continue;
            const double shown = (*values[i] - limits.zero) / limits.si;
            if (shown >= limits.least && shown <= limits.most) continue;
            capped.add_error(
                place_of(i, column),
                fmt::format("{} is {:.6g}{}, outside {:g} to {:g}{}", column, shown,
                            limits.unit, limits.least, limits.most, limits.unit),
                "correct the cell, or leave it empty");
        }
        capped.finish(fmt::format("correct column {}", column));
        return values;
    }

    void read_numbers() {
        const auto width =
            read_quantities("width", Dimension::kLength, {18, 60, 1e-3, 0, " mm"});
        const auto speed =
            read_quantities("speed", Dimension::kSpeed, {3, 120, 1 / 3.6, 0, " km/h"});
        const auto load =
            read_quantities("load", Dimension::kMass, {5, 300, 1, 0, " kg"});
        const auto pressure =
            read_quantities("pressure", Dimension::kPressure, {1, 16, 1e5, 0, " bar"});
        const auto temperature = read_quantities("temperature", Dimension::kTemperature,
                                                 {-20, 60, 1, 273.15, " C"});
        const auto drum =
            read_quantities("drum_diameter", Dimension::kLength, {0.2, 10, 1, 0, " m"});
        const auto watts =
            read_quantities("watts", Dimension::kNumber, {0.1, 400, 1, 0, " W"});
        const auto crr =
            read_quantities("crr", Dimension::kNumber, {0.0002, 0.2, 1, 0, ""});
        const auto spread =
            read_quantities("spread", Dimension::kNumber, {0, 100, 1, 0, ""});
        const auto runs = read_quantities("runs", Dimension::kNumber, {1, 1e4, 1, 0, ""});
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            TestRow& row = rows_[i];
            row.width_m = width[i];
            row.speed_m_s = speed[i];
            row.load_kg = load[i];
            row.pressure_pa = pressure[i];
            row.temperature_k = temperature[i];
            row.drum_diameter_m = drum[i];
            row.power_w = watts[i];
            row.crr = crr[i];
            row.spread = spread[i];
            row.runs = runs[i].value_or(1.0);
        }
    }

    // What one cell says against another.
    void check_values() {
        if (!table_.has_column("watts") && !table_.has_column("crr")) {
            problems_.add_error({table_.file, table_.columns.front().place.line, 0},
                                "no column says what was measured",
                                "add a column watts with per, or a column crr");
        }
        input::CappedProblems capped(problems_);
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            const TestRow& row = rows_[i];
            if (row.power_w && row.crr) {
                capped.add_error(place_of(i, "crr"), "watts and crr are both stated",
                                 "keep the one that was measured");
            }
            if (row.power_w && !per_[i]) {
                capped.add_error(place_of(i, "per"),
                                 "per is missing: watts of one tyre or of a pair?",
                                 "write tyre or pair");
            }
            if (row.runs != std::floor(row.runs)) {
                capped.add_error(place_of(i, "runs"), "runs is no whole number",
                                 "write how often the test was repeated, like 3");
            }
        }
        capped.finish("correct the rows");
    }

    const CsvTable& table_;
    base::ProblemList& problems_;
    std::vector<TestRow> rows_;
    std::vector<std::optional<std::size_t>> per_;
};

}  // namespace

std::vector<TestRow> read_rolling_tests(const std::string& path,
                                        base::ProblemList& problems,
                                        const Place& asked_at) {
    const auto table = input::read_csv(path, problems, asked_at);
    return table ? TestReader(*table, problems).read() : std::vector<TestRow>{};
}

std::vector<TestRow> read_rolling_tests_text(std::string text, const std::string& name,
                                             base::ProblemList& problems) {
    const auto table = input::read_csv_text(std::move(text), name, problems);
    return table ? TestReader(*table, problems).read() : std::vector<TestRow>{};
}

}  // namespace flattail::evidence
