#include "app/command_line.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "app/evidence.h"
#include "app/flats.h"
#include "app/guide.h"
#include "app/numbers.h"
#include "app/replay.h"
#include "flattail/publish.h"
#include "flattail/version.h"

namespace flattail::app {

namespace {

// The words of one command, as CLI11 fills them; numbers stay text until they are read.
struct Words {
    EvidenceWords evidence;
    std::string scenario, roster, directory;
    std::vector<std::string> settings;
    std::string races, seed, threads, within, over;
    FlatWords flats;
    ReplayWords replay;
    bool plain = false, quiet = false, json = false, draws = false, pictures = false;
    bool best = false;
};

struct Known {
    const char* name;
    Command command;
};
constexpr Known kCommands[] = {
    {"race", Command::kRace},    {"brief", Command::kBrief},
    {"why", Command::kWhy},      {"sweep", Command::kSweep},
    {"check", Command::kCheck},  {"course", Command::kCourse},
    {"pump", Command::kPump},    {"evidence", Command::kEvidence},
    {"start", Command::kStart},  {"flats", Command::kFlats},
    {"replay", Command::kReplay}};

[[noreturn]] void fail(const std::string& command, std::string what, std::string hint) {
    const std::string program = command.empty() ? "flattail" : "flattail " + command;
    throw InvalidInput({{{program, 0, 0}, std::move(what), std::move(hint)}});
}

void add_common(CLI::App& command, Words& words) {
    command.allow_extras();
    command.add_option("FILE", words.scenario, "The scenario, a TOML file");
    command.add_option("--set", words.settings, "Say it as if FILE did; may be repeated")
        ->type_name("KEY=VALUE")
        ->allow_extra_args(false);
}

// What every command that rides days and writes tables takes.
void add_study(CLI::App& command, Words& words) {
    add_common(command, words);
    const auto add = [&command](const char* name, std::string& text, const char* help,
                                const char* type) {
        command.add_option(name, text, help)->type_name(type);
    };
    add("--out", words.directory, "Folder for tables (reports/run/<file name>)", "DIR");
    add("--races", words.races, "Race days to draw (100000)", "N");
    add("--seed", words.seed, "Other luck, other seed (1)", "N");
    add("--threads", words.threads, "Threads; results stay the same (all)", "N");
    command.add_flag("--plain", words.plain, "Draw plain days, without extra flats");
    command.add_flag("--quiet", words.quiet,
                     "Print nothing but errors; tables are written");
}

void add_pictures(CLI::App& command, Words& words) {
    command.add_flag("--pictures", words.pictures,
                     "Also draw the findings (SVG, by gnuplot)");
}

// What more a command about one race takes.
void add_one_race(CLI::App& command, Words& words) {
    add_study(command, words);
    command
        .add_option("--within", words.within,
                    "Stop earlier, when differences are this exact")
        ->type_name("TIME");
    add_pictures(command, words);
}

constexpr const char* kExitCodes =
    "\n\nExit codes: 0 done, 2 input wrong, 3 could not write or stopped early,\n4 our "
    "mistake.";

void add_race(CLI::App& app, Words& words) {
    CLI::App& race = *app.add_subcommand(
        "race", "Rides many race days with every setup and compares the setups.");
    add_one_race(race, words);
    race.add_flag("--draws", words.draws, "Also write days.csv, a row per day and setup");
    race.add_flag("--json", words.json, "Print findings.json instead of the page");
    race.footer(std::string("Example:\n  flattail race lakeside.toml --set "
                            "\"rider.power=215 W\" --out reports/strong") +
                kExitCodes);
}

void add_brief(CLI::App& app, Words& words) {
    CLI::App& brief = *app.add_subcommand(
        "brief", "Writes the race brief of one rider: a page, its PDF and a message.");
    add_one_race(brief, words);
    brief
        .add_option("--roster", words.roster,
                    "One brief for each row of a table of athletes")
        ->type_name("CSV");
    brief.footer(
        std::string("Writes brief.html, brief.pdf, brief.txt and the tables of race; "
                    "prints\nthe message. With --roster: a folder for each athlete, "
                    "index.html, roster.csv.\n\nExamples:\n  flattail brief "
                    "lakeside.toml --out reports/tamsin\n  flattail brief lakeside.toml "
                    "--roster athletes.csv") +
        kExitCodes);
}

void add_why(CLI::App& app, Words& words) {
    CLI::App& why = *app.add_subcommand(
        "why", "Rides the race and asks what would turn the answer and what moves it.");
    add_study(why, words);
    add_pictures(why, words);
    why.footer(
        "Five to ten times the work of a race.\n\n"
        "Example:\n  flattail why lakeside.toml");
}

void add_sweep(CLI::App& app, Words& words) {
    CLI::App& sweep = *app.add_subcommand(
        "sweep", "Rides the race at several values of one thing, on the same days.");
    add_study(sweep, words);
    sweep.add_option("--over", words.over, "What changes, from where to where")
        ->type_name("KEY=FROM..TO[:STEPS]");
    sweep.footer(
        "KEY is what --set takes. 5 steps unless told, both ends among them.\n\n"
        "Example:\n  flattail sweep lakeside.toml --over \"rider.power=150 W..250 W:5\"");
}

void add_check(CLI::App& app, Words& words) {
    CLI::App& check = *app.add_subcommand(
        "check", "Shows the scenario as understood: setups, doubts, defaults, cautions.");
    add_common(check, words);
    check.footer("Example:\n  flattail check lakeside.toml");
}

void add_course(CLI::App& app, Words& words) {
    CLI::App& course =
        *app.add_subcommand("course", "Shows the course as understood and its profile.");
    add_common(course, words);
    course.add_option("--out", words.directory, "Also write course.csv into this folder")
        ->type_name("DIR");
    course.footer("Example:\n  flattail course lakeside.toml --out reports/lakeside");
}

void add_pump(CLI::App& app, Words& words) {
    CLI::App& pump = *app.add_subcommand(
        "pump", "Says what to pump, by the morning's temperature, dry and raining.");
    add_common(pump, words);
    pump.add_flag("--best", words.best, "Also try pressures on common race days");
    pump.add_option("--out", words.directory, "Folder for pump.csv and pressure.csv")
        ->type_name("DIR");
    add_pictures(pump, words);
    pump.add_option("--seed", words.seed, "Other luck, other seed (1)")->type_name("N");
    pump.add_option("--threads", words.threads, "Threads; results stay the same (all)")
        ->type_name("N");
    pump.footer("Example:\n  flattail pump lakeside.toml --best --out reports/lakeside");
}

void add_replay(CLI::App& app, Words& words) {
    CLI::App& replay = *app.add_subcommand(
        "replay", "Tells one ride of a study along the course, with what went wrong.");
    add_common(replay, words);
    add_replay_options(replay, words.replay, words.directory);
}

void add_evidence(CLI::App& app, Words& words) {
    CLI::App& evidence = *app.add_subcommand(
        "evidence", "Pools rolling tests: which product rolls better, and how sure.");
    evidence.allow_extras();
    evidence.add_option("FILE", words.scenario, "The tests, a CSV file");
    add_evidence_options(evidence, words.evidence);
    evidence
        .add_option("--out", words.directory,
                    "Folder for tables (reports/run/<file name>)")
        ->type_name("DIR");
    evidence.add_flag("--quiet", words.quiet, "Print nothing but errors");
    evidence.footer("Example:\n  flattail evidence tests.csv --makers \"left out\"");
}

void add_flats(CLI::App& app, Words& words) {
    CLI::App& flats = *app.add_subcommand(
        "flats", "Learns flat rates and repair times from a log of rides.");
    flats.allow_extras();
    flats.add_option("LOG", words.scenario, "The log, a CSV file with a row per ride");
    add_flat_options(flats, words.flats);
    flats
        .add_option("--out", words.directory,
                    "For rates.csv and flats.toml (reports/run/LOG)")
        ->type_name("DIR");
    flats.add_flag("--quiet", words.quiet,
                   "Print nothing but errors; tables are written");
}

void add_start(CLI::App& app, Words& words) {
    CLI::App& start = *app.add_subcommand(
        "start", "Asks about race, rider and wheels, and writes a scenario that runs.");
    start.allow_extras();
    start.add_option("FILE", words.scenario, "The file to write (race.toml)");
    start.footer(
        "Every question may be left open. Without a terminal it writes the file with\n"
        "comments.\n\nExample:\n  flattail start sunday.toml");
}

StudyOptions read_study(const Words& words) {
    StudyOptions study;
    if (!words.races.empty()) {
        study.races = read_number<std::int64_t>("--races", words.races, "100000");
    }
    if (!words.seed.empty()) {
        study.seed = read_number<std::uint64_t>("--seed", words.seed, "1");
    }
    if (!words.threads.empty()) {
        study.threads = read_number<int>("--threads", words.threads, "2");
    }
    if (!words.within.empty()) study.within_s = read_within(words.within);
    study.keep_days = words.draws;
    if (words.plain) study.draw = DrawKind::kPlain;
    return study;
}

std::vector<std::string> list_options(const CLI::App& command) {
    std::vector<std::string> names;
    for (const CLI::Option* option : command.get_options()) {
        for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    }
    return names;
}

std::string ask_whether(const std::string& nearest, const std::string& otherwise) {
    return nearest.empty() ? otherwise : "did you mean " + nearest + "?";
}

// The commands that have an option which this one has not.
std::string list_owners(const CLI::App& app, const std::string& option) {
    std::string owners;
    for (const Known& known : kCommands) {
        const std::vector<std::string> options =
            list_options(*app.get_subcommand(known.name));
        if (std::find(options.begin(), options.end(), option) == options.end()) continue;
        owners += (owners.empty() ? "" : ", ") + std::string(known.name);
    }
    return owners;
}

[[noreturn]] void refuse_option(const CLI::App& app, const CLI::App& command,
                                const std::string& option) {
    const std::string name = command.get_name();
    const std::string owners = list_owners(app, option);
    const std::string what = fmt::format("there is no option '{}'", option);
    if (!owners.empty()) fail(name, what, "it belongs to: " + owners);
    fail(name, what,
         ask_whether(suggest_name(option, list_options(command)),
                     fmt::format("flattail {} --help", name)));
}

// Words that no option took: an unknown option before anything else, because its value
// lies among them too.
void refuse_extras(const CLI::App& app, const CLI::App& command) {
    const std::vector<std::string> extras = command.remaining();
    if (extras.empty()) return;
    const auto option =
        std::find_if(extras.begin(), extras.end(),
                     [](const std::string& word) { return word.rfind('-', 0) == 0; });
    if (option != extras.end()) {
        refuse_option(app, command, option->substr(0, option->find('=')));
    }
    fail(command.get_name(), fmt::format("'{}' is one word too many", extras.front()),
         "give one scenario file; quote names with blanks");
}

// Words before a command, or instead of one.
void refuse_beginning(const CLI::App& app) {
    const std::vector<std::string> words = app.remaining();
    if (words.empty()) return;
    const std::string& word = words.front();
    if (word.rfind('-', 0) == 0) {
        fail("", fmt::format("'{}' stands before the command", word),
             fmt::format("flattail race FILE {}", word));
    }
    std::vector<std::string> known;
    for (const Known& command : kCommands) known.emplace_back(command.name);
    fail("", fmt::format("there is no command '{}'", word),
         ask_whether(suggest_name(word, known),
                     fmt::format("{}", fmt::join(known, ", "))));
}

Request make_request(const CLI::App& app, const Words& words) {
    const CLI::App& command = *app.get_subcommands().front();
    const std::string name = command.get_name();
    refuse_extras(app, command);
    if (words.scenario.empty() && words.roster.empty() && name != "start") {
        const char* file = name == "evidence" ? "tests.csv"
                           : name == "flats"  ? "rides.csv"
                                              : "race.toml";
        const char* what = name == "evidence" ? "no file of tests is named"
                           : name == "flats"  ? "no log is named"
                                              : "no scenario file is named";
        fail(name, what, fmt::format("flattail {} {}", name, file));
    }
    const auto* known =
        std::find_if(std::begin(kCommands), std::end(kCommands),
                     [&name](const Known& candidate) { return name == candidate.name; });
    Request request;
    request.command = known->command;
    const bool is_start = known->command == Command::kStart;
    request.scenario = words.scenario.empty() && is_start ? "race.toml" : words.scenario;
    request.settings = words.settings;
    request.over = words.over;
    if (request.command == Command::kSweep && words.over.empty()) {
        fail(name, "nothing is said to change",
             "write --over \"rider.power=150 W..250 W:5\"");
    }
    request.roster = words.roster;
    request.directory = words.directory;
    request.evidence = words.evidence;
    request.study = read_study(words);
    request.flats = read_flat_options(words.flats);
    if (request.command == Command::kReplay) read_replay_options(words.replay, request);
    request.race = words.flats.race;
    request.quiet = words.quiet;
    request.best = words.best;
    request.json = words.json;
    request.pictures = words.pictures;
    return request;
}

}  // namespace

std::variant<Request, Answer> read_command_line(const std::vector<std::string>& words) {
    if (words == std::vector<std::string>{"help"}) return Answer{kGuide};
    Words filled;
    CLI::App app("", "flattail");
    app.require_subcommand(0, 1);
    app.allow_extras();
    app.set_version_flag("--version", "flattail " + version());
    add_race(app, filled);
    add_brief(app, filled);
    add_why(app, filled);
    add_sweep(app, filled);
    add_check(app, filled);
    add_course(app, filled);
    add_pump(app, filled);
    add_replay(app, filled);
    add_evidence(app, filled);
    add_start(app, filled);
    add_flats(app, filled);
    try {
        // CLI11 takes the words from the back.
        app.parse(std::vector<std::string>(words.rbegin(), words.rend()));
    } catch (const CLI::CallForHelp&) {
        return Answer{app.get_subcommands().empty() ? kGuide : app.help()};
    } catch (const CLI::CallForVersion& answer) {
        return Answer{std::string(answer.what()) + '\n'};
    } catch (const CLI::ParseError& error) {
        const auto chosen = app.get_subcommands();
        const std::string name = chosen.empty() ? "" : chosen.front()->get_name();
        fail(name, error.what(),
             "flattail " + name + (name.empty() ? "" : " ") + "--help");
    }
    refuse_beginning(app);
    if (app.get_subcommands().empty()) return Answer{kGuide};
    return make_request(app, filled);
}

}  // namespace flattail::app
