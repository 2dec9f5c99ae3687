#include "app/flats.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <charconv>
#include <filesystem>

#include "app/command_line.h"
#include "app/terminal.h"
#include "flattail/publish.h"
#include "flattail/scenario.h"

namespace flattail::app {

namespace {

[[noreturn]] void fail(std::string what, std::string hint) {
    throw InvalidInput({{{"flattail flats", 0, 0}, std::move(what), std::move(hint)}});
}

std::string escape_text(const std::string& text) {
    std::string escaped;
    for (const char c : text) {
        if (c == '"' || c == '\\') escaped += '\\';
        escaped += c;
    }
    return '"' + escaped + '"';
}

// What the log says to a race: its length, and where setups and log do not match.
void read_race_for(const Request& request, FlatLogOptions& options) {
    if (request.race.empty()) return;
    const Scenario scenario = read_scenario(
        {request.race, {"evidence.flats=" + escape_text(request.scenario)}});
    options.race_m = scenario.course_length_m();
    if (request.quiet) return;
    for (const Problem& doubt : scenario.warnings()) {
        // The race's own doubts are for `race` and `check`.
        if (doubt.place.file != "--set") continue;
        write_notice(fmt::format("{} -> {}", doubt.what, doubt.hint));
    }
}

}  // namespace

void add_flat_options(CLI::App& command, FlatWords& words) {
    const auto add = [&command](const char* name, std::string& text, const char* help,
                                const char* type) {
        command.add_option(name, text, help)->type_name(type);
    };
    add("--race", words.race, "For this race; says where log and setups differ", "FILE");
    add("--distance", words.distance, "For a race this long (\"90 km\")", "LENGTH");
    add("--clumping", words.clumping, "2 days in 3 have a rate within this factor (1.8)",
        "N");
    command.footer(
        "Columns: date, distance_km, flats; then, where known, inner, setup, tyre,\n"
        "surface, wet, kind (training or race), rides, repair_min, note.\n\n"
        "Example:\n  flattail flats rides.csv --race lakeside.toml");
}

FlatLogOptions read_flat_options(const FlatWords& words) {
    FlatLogOptions flats;
    if (!words.distance.empty()) {
        const auto distance_m = read_length(words.distance);
        if (!distance_m) {
            fail(fmt::format("--distance is '{}', not a length", words.distance),
                 "write --distance \"90 km\"");
        }
        flats.race_m = *distance_m;
    }
    if (!words.clumping.empty()) {
        const char* end = words.clumping.data() + words.clumping.size();
        const auto [stop, error] =
            std::from_chars(words.clumping.data(), end, flats.clumping);
        if (error != std::errc{} || stop != end) {
            fail(fmt::format("--clumping is '{}', not a number", words.clumping),
                 "write --clumping 1.8");
        }
    }
    if (!words.race.empty() && !words.distance.empty()) {
        fail("--race and --distance are both given", "keep one: a race has its length");
    }
    return flats;
}

ExitCode run_flats(const Request& request) {
    const std::string directory =
        request.directory.empty()
            ? "reports/run/" +
                  name_directory(std::filesystem::path(request.scenario).stem().string())
            : request.directory;
    FlatLogOptions flats = request.flats;
    read_race_for(request, flats);
    const FlatLog log = read_flat_log(request.scenario, flats);
    write_flat_tables(log, directory);
    if (request.quiet) return ExitCode::kDone;
    PageOptions options;
    options.colour = choose_colour();
    options.tables_directory = directory;
    write_output(write_flat_page(log, options));
    return ExitCode::kDone;
}

}  // namespace flattail::app
