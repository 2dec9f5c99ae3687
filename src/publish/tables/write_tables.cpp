// All tables of a run, with a manifest that tells which belong together.
#include <fmt/format.h>

#include <boost/crc.hpp>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "flattail/publish.h"
#include "publish/check_findings.h"
#include "publish/tables/csv_tables.h"
#include "publish/tables/write_files.h"

namespace flattail {

namespace {

using Json = nlohmann::ordered_json;
using publish::NamedText;

// Longest name of a folder made from a race's name; common file systems take 255 bytes.
constexpr std::size_t kLongestName = 80;

// CRC-32 as in ISO 3309 and zip files: finds a damaged or mixed-up file, no protection
// against a forger.
std::string sum_crc32(const std::string& text) {
    boost::crc_32_type sum;
    sum.process_bytes(text.data(), text.size());
    return fmt::format("{:08x}", sum.checksum());
}

Json list_files(const std::vector<NamedText>& files) {
    Json list = Json::array();
    for (const NamedText& file : files) {
        list.push_back(Json{{"name", file.name},
                            {"bytes", file.text.size()},
                            {"crc32", sum_crc32(file.text)}});
    }
    return list;
}

std::string write_manifest(const Findings& findings,
                           const std::vector<NamedText>& files) {
    const StudyFacts& facts = findings.facts;
    const AccuracyCheck& check = findings.accuracy;
    const Json manifest{{"schema", "flattail manifest 1"},
                        {"version", facts.version},
                        {"scenario_file", facts.scenario_file},
                        {"scenario_fingerprint", facts.fingerprint},
                        {"check_code", facts.check_code},
                        {"seed", facts.seed},
                        {"race_days", facts.races},
                        {"effective_race_days", facts.effective_races},
                        {"plain_draws", facts.plain},
                        {"stopped_early", facts.stopped_early},
                        {"accuracy_check", Json{{"rides_checked", check.rides_checked},
                                                {"worst_ratio", check.worst_ratio},
                                                {"settled_share", check.settled_share},
                                                {"not_solved", check.not_solved}}},
                        {"files", list_files(files)}};
    return manifest.dump(1, ' ', false, Json::error_handler_t::replace) + '\n';
}

char lower_ascii(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool is_name_character(char c) {
    // Bytes of other alphabets stay; what a shell or a path gives a meaning does not.
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
           static_cast<unsigned char>(c) >= 0x80;
}

// Cut to the limit, never inside a character of several bytes.
std::string cut_name(std::string name) {
    if (name.size() <= kLongestName) return name;
    std::size_t end = kLongestName;
    while (end > 0 && (static_cast<unsigned char>(name[end]) & 0xC0u) == 0x80u) --end;
    name.resize(end);
    return name;
}

}  // namespace

std::string name_directory(const std::string& race_name) {
    std::string name;
    for (const char raw : race_name) {
        const char c = lower_ascii(raw);
        if (is_name_character(c)) {
            name += c;
        } else if (!name.empty() && name.back() != '-') {
            name += '-';
        }
    }
    name = cut_name(std::move(name));
    while (!name.empty() && name.back() == '-') name.pop_back();
    return name.empty() ? "race" : name;
}

void write_tables(const Findings& findings, const std::string& directory) {
    publish::check_findings(findings);
    std::vector<NamedText> files{
        {"percentiles.csv", publish::write_percentiles_csv(findings)},
        {"tail-risk.csv", publish::write_tail_risk_csv(findings)},
        {"paired.csv", publish::write_paired_csv(findings)},
        {"histogram.csv", publish::write_histogram_csv(findings)},
        {"kit.csv", publish::write_kit_csv(findings)},
        {"conditions.csv", publish::write_conditions_csv(findings)},
        {"findings.json", write_findings_json(findings)}};
    std::string days = publish::write_days_csv(findings);
    if (!days.empty()) files.push_back({"days.csv", std::move(days)});
    files.push_back({"manifest.json", write_manifest(findings, files)});
    publish::write_files_together(directory, files);
}

void write_course_table(const Scenario& scenario, const std::string& directory) {
    publish::write_files_together(directory, {{"course.csv", scenario.course_table()}});
}

}  // namespace flattail
