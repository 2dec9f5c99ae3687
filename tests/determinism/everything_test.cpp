// A race in which everything can happen: the same numbers, bit for bit, on any number of
// threads and instruction set, in any order of blocks, and when one ride is told again.
#include <algorithm>
#include <cstring>
#include <set>

#include "flattail/replay.h"
#include "flattail/study.h"
#include "study/run_study.h"
#include "support/catch.h"

namespace {

using namespace flattail;

// Officials who come to some, or a car that comes to everybody.
const std::vector<std::string> kOfficials{R"(repair.help="officials")",
                                          R"(repair.help_chance="50 %")",
                                          R"(repair.help_wait="12 min")"};
const std::vector<std::string> kCar{R"(repair.help="following car")"};

Scenario read(const std::vector<std::string>& help) {
    return read_scenario(
        {std::string(FLATTAIL_SOURCE_DIR) + "/tests/support/scenarios/everything.toml",
         help});
}

StudyOptions few() {
    StudyOptions options;
    options.races = 3000;
    options.seed = 5;
    options.threads = 1;
    options.keep_days = true;
    return options;
}

bool are_same(double a, double b) { return std::memcmp(&a, &b, sizeof a) == 0; }

bool are_same(const DayRide& a, const DayRide& b) {
    return are_same(a.finish_s, b.finish_s) && are_same(a.lost_s, b.lost_s) &&
           a.flats == b.flats && a.front_flats == b.front_flats &&
           a.flats_at_speed == b.flats_at_speed && a.ending == b.ending;
}

// Rides that differ; figures are compared by what they are made of and by two of the last
// ones to be worked out.
int count_changes(const Findings& a, const Findings& b) {
    int changes = 0;
    for (std::size_t s = 0; s < a.setups.size(); ++s) {
        const auto& first = a.days.rides[s];
        const auto& second = b.days.rides[s];
        REQUIRE(first.size() == second.size());
        for (std::size_t d = 0; d < first.size(); ++d) {
            changes += are_same(first[d], second[d]) ? 0 : 1;
        }
        const Figure &x = a.setups[s].no_finish, &y = b.setups[s].no_finish;
        changes += are_same(x.value, y.value) ? 0 : 1;
        changes += are_same(x.skewness, y.skewness) ? 0 : 1;
    }
    for (std::size_t p = 0; p < a.pairs.size(); ++p) {
        changes += are_same(a.pairs[p].mean_s.value, b.pairs[p].mean_s.value) ? 0 : 1;
        changes += are_same(a.pairs[p].could_be_s.low, b.pairs[p].could_be_s.low) ? 0 : 1;
    }
    return changes;
}

// Groups of `size`, the last group first.
study::BlockExecutor run_backwards(std::size_t size) {
    return [size](std::size_t count,
                  const std::function<void(std::size_t, std::size_t)>& work) {
        for (std::size_t end = count; end > 0;) {
            const std::size_t begin = end - std::min(size, end);
            work(begin, end);
            end = begin;
        }
    };
}

std::set<std::string> list_endings(const Findings& findings) {
    std::set<std::string> endings;
    for (const auto& rides : findings.days.rides) {
        for (const DayRide& ride : rides) endings.insert(ride.ending);
    }
    return endings;
}

}  // namespace

TEST_CASE("a race with everything finds the same on 1, 2 and 7 threads") {
    for (const auto& help : {kOfficials, kCar}) {
        const Scenario scenario = read(help);
        StudyOptions options = few();
        const Findings one = run_study(scenario, options);
        // With a car behind everybody all arrive in time.
        if (help == kOfficials) CHECK(list_endings(one).size() >= 4);
        for (const int threads : {2, 7}) {
            options.threads = threads;
            CHECK(count_changes(one, run_study(scenario, options)) == 0);
        }
        // The twin: another seed changes nearly every ride.
        options.seed = 6;
        CHECK(count_changes(one, run_study(scenario, options)) > 8000);
    }
}

TEST_CASE("a race with everything finds the same on every instruction set") {
    for (const auto& help : {kOfficials, kCar}) {
        const Scenario scenario = read(help);
        StudyOptions options = few();
        options.instructions = InstructionChoice::kBaseline;
        const Findings baseline = run_study(scenario, options);
        for (const auto choice : {InstructionChoice::kV3, InstructionChoice::kV4}) {
            options.instructions = choice;
            try {
                const Findings found = run_study(scenario, options);
                CHECK(count_changes(baseline, found) == 0);
            } catch (const InvalidInput&) {
                WARN("this machine lacks one of the instruction sets");
            }
        }
    }
}

TEST_CASE("a race with everything does not care how its blocks are grouped") {
    const Scenario scenario = read(kOfficials);
    const Findings whole = run_study(scenario, few());
    for (const std::size_t size : {1UL, 3UL, 17UL}) {
        const auto study = study::run_whole_study(scenario, few(), run_backwards(size));
        Findings found = study.findings;
        CHECK(count_changes(whole, found) == 0);
    }
}

TEST_CASE("rides told again are those of the table, whatever happened on them") {
    for (const auto& help : {kOfficials, kCar}) {
        const Scenario scenario = read(help);
        const Findings found = run_study(scenario, few());
        std::set<std::string> words;
        for (std::size_t s = 0; s < found.setups.size(); ++s) {
            for (std::size_t day = 0; day < 200; ++day) {
                const DayRide& row = found.days.rides[s][day];
                if (row.flats == 0 && day % 50 != 0) continue;
                const Replay again = replay_race(
                    scenario,
                    {static_cast<std::int64_t>(day), found.setups[s].name, few()});
                CHECK(are_same(again.finish_s, row.finish_s));
                CHECK(are_same(again.lost_s, row.lost_s));
                CHECK(again.flats == row.flats);
                CHECK(again.ending == row.ending);
                for (const ReplayEvent& event : again.events) words.insert(event.words);
            }
        }
        // Much has happened on them.
        CHECK(words.size() >= 8);
    }
}
