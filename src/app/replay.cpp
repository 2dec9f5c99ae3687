#include "app/replay.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <charconv>

#include "app/command_line.h"
#include "app/terminal.h"
#include "flattail/replay.h"

namespace flattail::app {

namespace {

[[noreturn]] void fail(std::string what, std::string hint) {
    throw InvalidInput({{{"flattail replay", 0, 0}, std::move(what), std::move(hint)}});
}

template <class Number>
Number read_number(const char* option, const std::string& text) {
    Number number{};
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, number);
    if (error != std::errc{} || stop != end) {
        fail(fmt::format("{} is '{}', not a whole number in range", option, text),
             fmt::format("write {} 17", option));
    }
    return number;
}

}  // namespace

void add_replay_options(CLI::App& command, ReplayWords& words, std::string& directory) {
    command.add_option("--race", words.race, "The race day: column `day` of days.csv")
        ->type_name("N");
    command.add_option("--setup", words.setup, "The setup, by its name")
        ->type_name("NAME");
    command.add_option("--seed", words.seed, "The seed of that study (1)")
        ->type_name("N");
    command.add_option("--races", words.races, "The race days of that study (100000)")
        ->type_name("N");
    command.add_flag("--plain", words.plain, "That study drew plain days");
    command.add_option("--out", directory, "Also write replay.csv into this folder")
        ->type_name("DIR");
    command.footer(
        "Find a day worth telling in days.csv, which race --draws writes.\n\nExample:\n"
        "  flattail replay lakeside.toml --race 41 --setup Latex");
}

void read_replay_options(const ReplayWords& words, Request& request) {
    if (words.race.empty()) {
        fail("no race day is named", "write --race with a number from days.csv");
    }
    if (words.setup.empty()) {
        fail("no setup is named", "write --setup with a name from the scenario");
    }
    request.replay_race = read_number<std::int64_t>("--race", words.race);
    request.replay_setup = words.setup;
    if (!words.seed.empty()) {
        request.study.seed = read_number<std::uint64_t>("--seed", words.seed);
    }
    if (!words.races.empty()) {
        request.study.races = read_number<std::int64_t>("--races", words.races);
    }
    if (words.plain) request.study.draw = DrawKind::kPlain;
}

ExitCode run_replay(const Request& request, const Scenario& scenario) {
    ReplayRequest wanted;
    wanted.race = request.replay_race;
    wanted.setup = request.replay_setup;
    wanted.study = request.study;
    if (!request.directory.empty()) prepare_tables_directory(request.directory);
    const Replay replay = replay_race(scenario, wanted);
    if (!request.directory.empty()) write_replay_table(replay, request.directory);
    PageOptions options;
    options.colour = choose_colour();
    write_output(write_replay_page(replay, options));
    return ExitCode::kDone;
}

}  // namespace flattail::app
