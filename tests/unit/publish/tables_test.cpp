#include <algorithm>
#include <boost/crc.hpp>
#include <charconv>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <limits>
#include <nlohmann/json.hpp>
#include <sstream>

#include "base/problem_list.h"
#include "flattail/publish.h"
#include "input/tables/csv.h"
#include "publish/tables/csv_tables.h"
#include "publish/tables/csv_text.h"
#include "support/catch.h"
#include "support/scratch_directory.h"
#include "unit/publish/invented_findings.h"

using namespace flattail;
using namespace flattail::publish;
using flattail::test::invent_findings;
using flattail::test::read_file;
using flattail::test::ScratchDirectory;
using nlohmann::json;

namespace {

constexpr double kNoFinish = std::numeric_limits<double>::infinity();
constexpr double kNotANumber = std::numeric_limits<double>::quiet_NaN();

// Our own reader for users' files: strict about quotes and ragged rows.
input::CsvTable read_back(const std::string& text) {
    base::ProblemList problems;
    const auto table = input::read_csv_text(text, "table.csv", problems);
    REQUIRE_FALSE(problems.has_errors());
    REQUIRE(table.has_value());
    return *table;
}

double to_number(const std::string& text) {
    double value = kNotANumber;
    const char* end = text.data() + text.size();
    const auto result = std::from_chars(text.data(), end, value);
    CHECK(result.ptr == end);
    return value;
}

// The cells of one column in rows whose other columns hold what is asked for.
class Cells {
  public:
    explicit Cells(const std::string& text) : table_(read_back(text)) {}

    std::size_t index(const std::string& header) const {
        for (std::size_t i = 0; i < table_.columns.size(); ++i) {
            if (table_.columns[i].header == header) return i;
        }
        FAIL("no column " << header);
        return 0;
    }
    std::string find(const std::string& setup, const std::string& figure,
                     const std::string& header) const {
        for (const auto& row : table_.rows) {
            if (row[index("setup")].text == setup &&
                row[index("figure")].text == figure) {
                return row[index(header)].text;
            }
        }
        FAIL("no row " << figure);
        return "";
    }
    const input::CsvTable& table() const { return table_; }

  private:
    input::CsvTable table_;
};

}  // namespace

TEST_CASE("fields are quoted where RFC 4180 asks for it") {
    CHECK(quote_field("Latex") == "Latex");
    CHECK(quote_field("a,b") == "\"a,b\"");
    CHECK(quote_field("28 \"wide\"") == "\"28 \"\"wide\"\"\"");
    CHECK(quote_field("two\r\nlines") == "\"two\r\nlines\"");
    CHECK(quote_field(" led by a blank") == "\" led by a blank\"");
}

TEST_CASE("numbers are the shortest that read back to the same bits") {
    for (const double value : {0.1, 1.0 / 3.0, 9380.0, 1e-300, 6.02214076e23, -73.2}) {
        CHECK(to_number(csv_number(value)) == value);
    }
    CHECK(csv_number(0.1) == "0.1");
    CHECK(csv_number(-0.0) == "0");
    CHECK(csv_time(kNoFinish) == "no finish");
    CHECK_THROWS_AS(csv_time(-kNoFinish), OurMistake);
    CHECK_THROWS_AS(csv_number(kNotANumber), OurMistake);
}

TEST_CASE("percentiles read back to the same bits") {
    const Findings findings = invent_findings();
    const Cells cells(write_percentiles_csv(findings));
    const auto& rows = cells.table().rows;
    REQUIRE(rows.size() == 2 * findings.setups[0].percentiles.size());
    std::size_t at = 0;
    for (const SetupFindings& setup : findings.setups) {
        for (const PercentileRow& percentile : setup.percentiles) {
            const auto& row = rows[at++];
            CHECK(row[cells.index("setup")].text == setup.name);
            CHECK(to_number(row[cells.index("percent")].text) == percentile.percent);
            const std::string& finish = row[cells.index("finish_s")].text;
            if (std::isinf(percentile.time_s)) {
                CHECK(finish == "no finish");
            } else {
                CHECK(to_number(finish) == percentile.time_s);
                CHECK(to_number(row[cells.index("finish_low_s")].text) ==
                      percentile.interval_s.low);
                CHECK(to_number(row[cells.index("finish_high_s")].text) ==
                      percentile.interval_s.high);
            }
        }
    }
}

TEST_CASE("a limit that so few days leave open is an empty cell") {
    Findings findings = invent_findings();
    findings.setups[0].percentiles = {{0.1, 9000.0, {-kNoFinish, 9010.0}}};
    findings.setups[1].percentiles = {{99.9, 9000.0, {8990.0, kNoFinish}}};
    const std::string text = write_percentiles_csv(findings);
    CHECK(text.find("Butyl (on now),0.1,9000,,9010\r\n") != std::string::npos);
    CHECK(text.find("Latex,99.9,9000,8990,no finish\r\n") != std::string::npos);
}

TEST_CASE("tail risk holds every chance with its standard error") {
    Findings findings = invent_findings();
    findings.cutoff_s = 14400.0;
    findings.setups[1].over_cutoff = {0.0017, 0.00009};
    const Cells cells(write_tail_risk_csv(findings));
    const SetupFindings& latex = findings.setups[1];
    const auto check_chance = [&](const std::string& figure, const Figure& chance) {
        CHECK(to_number(cells.find("Latex", figure, "chance")) == chance.value);
        CHECK(to_number(cells.find("Latex", figure, "chance_se")) ==
              chance.standard_error);
    };
    check_chance("goal met", latex.goals[0]);
    check_chance("a flat", latex.flat);
    check_chance("two flats", latex.two_flats);
    check_chance("front flat", latex.front_flat);
    check_chance("flat at speed", latex.flat_at_speed);
    check_chance("front flat at speed", latex.front_flat_at_speed);
    check_chance("lost to flats or no finish", latex.lose_long);
    check_chance("no finish", latex.no_finish);
    check_chance("over the cutoff", latex.over_cutoff);
    check_chance("no finish: no spare left", latex.no_finish_causes[1].chance);
    CHECK(to_number(cells.find("Latex", "goal met", "threshold_s")) == 9300.0);
    CHECK(to_number(cells.find("Latex", "over the cutoff", "threshold_s")) == 14400.0);
    CHECK(to_number(cells.find("Latex", "flats per race", "flats_per_race")) ==
          latex.flats_per_race.value);
    CHECK(to_number(cells.find("Latex", "average judged time", "time_s")) ==
          latex.mean_judged_s.value);
    CHECK(to_number(cells.find("Latex", "average judged time", "time_se_s")) ==
          latex.mean_judged_s.standard_error);
    CHECK(to_number(cells.find("Latex", "average of the worst days", "share_of_days")) ==
          latex.worst_days[0].share);
    CHECK(to_number(cells.find("Latex", "a flat costs, median", "time_s")) ==
          latex.flat_costs_s);
}

TEST_CASE("paired differences read back, their parts only when known") {
    Findings findings = invent_findings();
    CHECK(write_paired_csv(findings).find("part: ") == std::string::npos);
    findings.pairs[0].parts_known = true;
    findings.pairs[0].rolling_s = {-82.5, 0.75};
    findings.pairs[0].flats_s = {9.25, 0.5};
    const Cells cells(write_paired_csv(findings));
    const auto find = [&](const std::string& figure, const std::string& header) {
        return to_number(cells.find("Latex", figure, header));
    };
    CHECK(find("mean judged difference", "difference_s") == -73.2);
    CHECK(find("mean judged difference", "difference_se_s") == 0.6);
    CHECK(find("judged difference", "low_s") == -314.0);
    CHECK(find("faster (half the ties)", "chance") == 0.912);
    CHECK(find("only setup finishes", "chance") == 0.0029);
    CHECK(find("only against finishes", "chance") == 0.0036);
    CHECK(find("could be, over what is not known", "low_s") == -130.0);
    CHECK(find("could be, over what is not known", "interval_share") == 0.9);
    CHECK(find("part: rolling", "difference_s") == -82.5);
    CHECK(find("part: flats", "difference_se_s") == 0.5);
    CHECK(cells.find("Latex", "tie", "against") == "Butyl (on now)");
}

TEST_CASE("histogram rows join without gaps and sum to one") {
    const Findings findings = invent_findings();
    const Cells cells(write_histogram_csv(findings));
    double sum = 0.0;
    std::string last = "0";
    for (std::size_t i = 0; i < 10; ++i) {
        const auto& row = cells.table().rows[i];
        CHECK(row[cells.index("from_s")].text == last);
        last = row[cells.index("to_s")].text;
        sum += to_number(row[cells.index("share")].text);
        CHECK(to_number(row[cells.index("share_se")].text) == 0.001);
    }
    CHECK(last == "no finish");
    CHECK(sum == Approx(1.0).margin(1e-12));
}

TEST_CASE("any name a user may give survives every table") {
    const std::string name = "28 \"wide\", front\nand rear; \u8F2A";
    const Findings findings = invent_findings({name, "b"});
    for (const std::string& text :
         {write_percentiles_csv(findings), write_tail_risk_csv(findings),
          write_histogram_csv(findings)}) {
        const Cells cells(text);
        CHECK(cells.table().rows[0][cells.index("setup")].text == name);
    }
    const Cells pairs(write_paired_csv(findings));
    CHECK(pairs.table().rows[0][pairs.index("against")].text == name);
    CHECK(json::parse(write_findings_json(findings))["setups"][0]["name"] == name);
}

TEST_CASE("JSON reads back every figure to the same bits") {
    const Findings findings = invent_findings();
    const json read = json::parse(write_findings_json(findings));
    CHECK(read["schema"] == "flattail findings 1");
    CHECK(read["study"]["seed"].get<std::uint64_t>() == findings.facts.seed);
    CHECK(read["study"]["race_days"] == findings.facts.races);
    for (std::size_t s = 0; s < 2; ++s) {
        const SetupFindings& setup = findings.setups[s];
        const json& row = read["setups"][s];
        CHECK(row["name"] == setup.name);
        CHECK(row["typical_s"].get<double>() == setup.typical_s);
        CHECK(row["flat"]["value"].get<double>() == setup.flat.value);
        CHECK(row["flat"]["standard_error"].get<double>() == setup.flat.standard_error);
        CHECK(row["no_finish_causes"][1]["cause"] == "no spare left");
        REQUIRE(row["quantiles_s"].size() == 1000);
        for (std::size_t i = 0; i < 1000; ++i) {
            const json& quantile = row["quantiles_s"][i];
            if (std::isinf(setup.quantiles_s[i])) {
                CHECK(quantile.is_null());
            } else {
                CHECK(quantile.get<double>() == setup.quantiles_s[i]);
            }
        }
    }
    const json& pair = read["pairs"][0];
    CHECK(pair["setup"] == "Latex");
    CHECK(pair["mean_judged_s"]["value"].get<double>() == -73.2);
    CHECK(pair["parts"].is_null());
    CHECK(pair["could_be_9_in_10_s"][1].get<double>() == -45.0);
    CHECK(read["histogram"]["edges_s"].size() == 9);
    CHECK(read["verdict"]["choice"] == "Latex");
    CHECK(read["verdict"]["certainty"] == "firm");
    CHECK(read["null_means"]["times"].is_string());
    CHECK(read["cutoff_s"].is_null());
}

TEST_CASE("what has no number is null in JSON and empty in CSV, never NaN") {
    Findings findings = invent_findings();
    findings.setups[0].flat_costs_s = kNotANumber;
    findings.setups[0].flat_costs_often_s = kNotANumber;
    findings.pairs[0].p95_difference_s = {kNotANumber, kNotANumber};
    findings.setups[0].typical_s = kNoFinish;
    findings.setups[0].nine_in_ten_s.high = kNoFinish;
    const std::string text = write_findings_json(findings);
    const json read = json::parse(text);
    CHECK(read["setups"][0]["flat_costs_s"].is_null());
    CHECK(read["setups"][0]["typical_s"].is_null());
    CHECK(read["pairs"][0]["p95_difference_s"]["value"].is_null());
    const Cells pairs(write_paired_csv(findings));
    CHECK(pairs.find("Latex", "difference of the 95th percentiles", "difference_s") ==
          "");
    for (const std::string& table :
         {text, write_tail_risk_csv(findings), write_paired_csv(findings),
          write_percentiles_csv(findings), write_page(findings)}) {
        CHECK(table.find("nan") == std::string::npos);
        CHECK(table.find(",inf") == std::string::npos);
    }
}

TEST_CASE("a NaN anywhere stops all tables before the first file") {
    const ScratchDirectory scratch;
    Findings findings = invent_findings();
    findings.setups[1].quantiles_s[500] = kNotANumber;
    CHECK_THROWS_AS(write_tables(findings, scratch.path()), OurMistake);
    CHECK(std::filesystem::is_empty(scratch.path()));
}

TEST_CASE("the sum used for files is CRC-32") {
    // Check value of CRC-32/ISO-HDLC (ISO 3309, ITU-T V.42) for the nine digits.
    boost::crc_32_type sum;
    const std::string digits = "123456789";
    sum.process_bytes(digits.data(), digits.size());
    CHECK(sum.checksum() == 0xCBF43926u);
}

TEST_CASE("the manifest names every file with its true size and sum") {
    const ScratchDirectory scratch;
    write_tables(invent_findings(), scratch.path());
    const json manifest = json::parse(read_file(scratch.path() + "/manifest.json"));
    CHECK(manifest["version"] == "9.8.7");
    CHECK(manifest["seed"].get<std::uint64_t>() == 18446744073709551615u);
    CHECK(manifest["check_code"] == "7f3a-21c0");
    CHECK(manifest["race_days"] == 100000);
    CHECK(manifest["accuracy_check"]["rides_checked"] == 2000);
    std::vector<std::string> names{"manifest.json"};
    for (const json& file : manifest["files"]) {
        names.push_back(file["name"]);
        const std::string text = read_file(scratch.path() + "/" + names.back());
        CHECK(file["bytes"] == text.size());
        boost::crc_32_type sum;
        sum.process_bytes(text.data(), text.size());
        std::ostringstream hex;
        hex << std::hex << std::setw(8) << std::setfill('0') << sum.checksum();
        CHECK(file["crc32"] == hex.str());
    }
    std::vector<std::string> found;
    for (const auto& entry : std::filesystem::directory_iterator(scratch.path())) {
        found.push_back(entry.path().filename().string());
    }
    std::sort(names.begin(), names.end());
    std::sort(found.begin(), found.end());
    CHECK(found == names);
}
