// What the user asked for, from the words of the command line.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "flattail/flat_log.h"
#include "flattail/study.h"

namespace flattail::app {

enum class Command {
    kRace,
    kBrief,
    kWhy,
    kSweep,
    kCheck,
    kCourse,
    kPump,
    kEvidence,
    kStart,
    kFlats,
    kReplay
};

/// How tests are to be pooled, as written; empty: the default.
struct EvidenceWords {
    std::string against, makers, between, specimen;
};

struct Request {
    Command command = Command::kRace;
    std::string scenario;               // path of the TOML file, or of the tests
    std::vector<std::string> settings;  // "rider.power=240 W"
    std::string over;                   // what a sweep changes: "KEY=FROM..TO:STEPS"
    std::string roster;                 // CSV of athletes; empty: one brief
    std::string directory;              // for tables; empty: the default
    StudyOptions study;
    EvidenceWords evidence;
    FlatLogOptions flats;  // `flats`: what a log is read with
    std::string race;      // `flats`: a scenario to compare the log with; may be empty
    std::int64_t replay_race = 0;  // replay: which day, and
    std::string replay_setup;      // which setup
    bool best = false;             // pump: also find the best pressures
    bool quiet = false;            // nothing but errors on the terminal
    bool json = false;             // findings as JSON instead of the page
    bool pictures = false;
};

/// Text that answers the command line at once: help, version, the guide.
struct Answer {
    std::string text;
};

/// Reads the words after the program's name.
/// Errors: InvalidInput naming the word, with the nearest known one
std::variant<Request, Answer> read_command_line(const std::vector<std::string>& words);

}  // namespace flattail::app
