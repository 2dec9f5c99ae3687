#include "app/evidence.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <charconv>
#include <filesystem>

#include "app/terminal.h"
#include "flattail/evidence.h"

namespace flattail::app {

void add_evidence_options(CLI::App& command, EvidenceWords& words) {
    const auto add = [&command](const char* name, std::string& text, const char* help,
                                const char* type) {
        command.add_option(name, text, help)->type_name(type);
    };
    add("--against", words.against, "Compared with this (the most tested one)",
        "PRODUCT");
    add("--makers", words.makers, "'left out', 'discounted' or 'as stated'", "WORDS");
    add("--between", words.between, "How far laboratories differ (0.0003)", "CRR");
    add("--specimen", words.specimen,
        "How far two specimens of a product differ (0.0001)", "CRR");
}

namespace {

[[noreturn]] void fail(const std::string& what, const std::string& hint) {
    throw InvalidInput({{{"flattail evidence", 0, 0}, what, hint}});
}

double read_scale(const char* option, const std::string& text, double usual) {
    if (text.empty()) return usual;
    double value = 0.0;
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    if (error == std::errc{} && stop == end) return value;
    fail(fmt::format("{} is '{}', not a coefficient", option, text),
         fmt::format("write {} {}", option, usual));
}

MakerRows read_makers(const std::string& words) {
    const std::vector<std::string> known{"left out", "discounted", "as stated"};
    for (std::size_t i = 0; i < known.size(); ++i) {
        if (words == known[i]) return static_cast<MakerRows>(i);
    }
    const std::string nearest = suggest_name(words, known);
    fail(fmt::format("--makers cannot be '{}'", words),
         nearest.empty() ? "write --makers \"left out\", discounted or \"as stated\""
                         : fmt::format("write --makers \"{}\"", nearest));
}

RollingOptions read_options(const EvidenceWords& words) {
    RollingOptions options;
    options.against = words.against;
    if (!words.makers.empty()) options.makers = read_makers(words.makers);
    options.between_laboratories =
        read_scale("--between", words.between, options.between_laboratories);
    options.specimen_sd = read_scale("--specimen", words.specimen, options.specimen_sd);
    return options;
}

// Named after the file, or its folder for a plain "tests.csv".
std::string choose_directory(const Request& request) {
    if (!request.directory.empty()) return request.directory;
    const std::filesystem::path file(request.scenario);
    std::string name = file.stem().string();
    const std::string folder = file.parent_path().filename().string();
    if (name == "tests" && !folder.empty()) name = folder + "-tests";
    return "reports/run/" + name_directory(name.empty() ? "evidence" : name);
}

}  // namespace

ExitCode run_evidence(const Request& request) {
    const RollingEvidence evidence =
        pool_rolling_tests(request.scenario, read_options(request.evidence));
    const std::string directory = choose_directory(request);
    write_evidence_tables(evidence, directory);
    if (request.quiet) return ExitCode::kDone;
    PageOptions options;
    options.colour = choose_colour();
    options.tables_directory = directory;
    write_output(write_evidence_page(evidence, options));
    return ExitCode::kDone;
}

}  // namespace flattail::app
