// The shipped samples are what the program writes now, and what it writes obeys laws that
// do not depend on any pinned number. To accept a wanted change: the target
// sample_reports, then read the difference.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <limits>
#include <map>
#include <sstream>

#include "input/tables/csv.h"
#include "support/catch.h"

namespace {

namespace fs = std::filesystem;
using namespace flattail;

const fs::path kTop = FLATTAIL_SOURCE_DIR;

std::string read_file(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

std::vector<std::string> list_scenarios() {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(kTop / "scenarios")) {
        if (fs::exists(entry.path() / "scenario.toml")) {
            names.push_back(entry.path().filename().string());
        }
    }
    std::sort(names.begin(), names.end());
    return names;
}

// Runs the built program with the options of the samples.
fs::path run_program(const std::string& name) {
    const fs::path out = fs::temp_directory_path() / ("flattail-golden-" + name);
    fs::remove_all(out);
    const std::string command = "cd '" + kTop.string() +
                                "' && '" FLATTAIL_PROGRAM "' race scenarios/" + name +
                                "/scenario.toml --races 20000 --seed 1 --quiet --out '" +
                                out.string() + "' >/dev/null 2>&1";
    REQUIRE(std::system(command.c_str()) == 0);
    return out;
}

using Row = std::map<std::string, std::string>;

std::vector<Row> read_rows(const fs::path& path) {
    base::ProblemList problems;
    const auto table = input::read_csv(path.string(), problems);
    REQUIRE(table.has_value());
    std::vector<Row> rows;
    for (const auto& cells : table->rows) {
        Row row;
        for (std::size_t c = 0; c < cells.size(); ++c) {
            row[table->columns[c].header] = cells[c].text;
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

// "no finish" is later than every time.
double to_number(const std::string& text) {
    return text == "no finish" ? std::numeric_limits<double>::infinity()
                               : std::stod(text);
}

}  // namespace

TEST_CASE("the shipped samples are what the program writes") {
    for (const std::string& name : list_scenarios()) {
        const fs::path out = run_program(name);
        for (const char* file : {"percentiles.csv", "tail-risk.csv", "paired.csv",
                                 "histogram.csv", "conditions.csv", "kit.csv"}) {
            CAPTURE(name, file);
            CHECK(read_file(out / file) ==
                  read_file(kTop / "reports/samples" / name / file));
        }
    }
}

TEST_CASE("finish times rise with the percentile and lie in their intervals") {
    for (const std::string& name : list_scenarios()) {
        std::map<std::string, double> last;
        for (const Row& row :
             read_rows(kTop / "reports/samples" / name / "percentiles.csv")) {
            const double time = to_number(row.at("finish_s"));
            CHECK(time >= last[row.at("setup")]);
            CHECK(to_number(row.at("finish_low_s")) <= time);
            CHECK(time <= to_number(row.at("finish_high_s")));
            last[row.at("setup")] = time;
        }
    }
}

TEST_CASE("race days by finish time add up to all of them") {
    for (const std::string& name : list_scenarios()) {
        std::map<std::string, double> sum;
        for (const Row& row :
             read_rows(kTop / "reports/samples" / name / "histogram.csv")) {
            sum[row.at("setup")] += std::stod(row.at("share"));
        }
        for (const auto& [setup, total] : sum) CHECK(total == Approx(1.0).epsilon(1e-9));
    }
}

TEST_CASE("chances are chances, and two flats are rarer than one") {
    for (const std::string& name : list_scenarios()) {
        std::map<std::string, std::map<std::string, double>> chance;
        for (const Row& row :
             read_rows(kTop / "reports/samples" / name / "tail-risk.csv")) {
            if (row.at("chance").empty()) continue;
            const double value = std::stod(row.at("chance"));
            CHECK(value >= 0.0);
            CHECK(value <= 1.0);
            chance[row.at("setup")][row.at("figure")] = value;
        }
        for (const auto& [setup, of] : chance) {
            CHECK(of.at("two flats") <= of.at("a flat"));
            CHECK(of.at("front flat") <= of.at("a flat"));
        }
    }
}

namespace {

// Whether the difference of the scan has one sign before a place and the other after it.
bool changes_sign_at(const std::vector<Row>& scan, double at) {
    double before = 0.0, after = 0.0;
    for (const Row& row : scan) {
        const double difference = std::stod(row.at("difference_s"));
        if (std::stod(row.at("at")) <= at) before = difference;
        if (std::stod(row.at("at")) > at && after == 0.0) after = difference;
    }
    return before * after < 0.0;
}

}  // namespace

TEST_CASE("the sample of why turns where its scan changes sign, and nowhere else") {
    std::map<std::string, std::vector<Row>> scans, turns;
    for (const Row& row : read_rows(kTop / "reports/samples/lakeside/break-even.csv")) {
        const std::string question = row.at("setup") + ": " + row.at("question");
        if (row.at("row") == "scan") scans[question].push_back(row);
        if (row.at("row") == "turns") turns[question].push_back(row);
    }
    REQUIRE_FALSE(turns.empty());
    for (const auto& [question, rows] : turns) {
        CAPTURE(question);
        for (const Row& row : rows) {
            CHECK(changes_sign_at(scans[question], std::stod(row.at("at"))));
        }
        // The twin: at the lowest value looked at nothing has turned yet.
        CHECK_FALSE(changes_sign_at(scans[question], -1e9));
    }
}

TEST_CASE("what the sample of why calls beaten is slower than its beater twice") {
    std::map<std::string, Row> variants;
    for (const Row& row : read_rows(kTop / "reports/samples/lakeside/trade-off.csv")) {
        if (row.at("varied") != "setup") variants[row.at("variant")] = row;
    }
    int beaten = 0;
    for (const auto& [name, row] : variants) {
        const auto winner = variants.find(row.at("beaten_on_both_by"));
        if (winner == variants.end()) continue;
        ++beaten;
        for (const char* change : {"typical_change_s", "worst_change_s"}) {
            CHECK(std::stod(row.at(change)) > std::stod(winner->second.at(change)));
        }
    }
    CHECK(beaten > 0);
}

TEST_CASE("more power is a faster typical day in the sample of sweep") {
    std::map<std::string, double> last;
    for (const Row& row : read_rows(kTop / "reports/samples/lakeside/sweep.csv")) {
        const double typical_s = std::stod(row.at("typical_s"));
        const auto [known, is_first] = last.try_emplace(row.at("setup"), typical_s);
        if (!is_first) CHECK(typical_s < known->second);
        known->second = typical_s;
    }
    CHECK(last.size() > 1);
}
