// Full disks, folders in the way, terminals and Ctrl-C.
#include <filesystem>
#include <nlohmann/json.hpp>

#include "end_to_end/program.h"
#include "support/catch.h"
#include "support/scratch_directory.h"

using namespace flattail::test;
using nlohmann::json;

namespace {

std::size_t count_entries(const std::string& directory) {
    using Entries = std::filesystem::directory_iterator;
    return static_cast<std::size_t>(std::distance(Entries(directory), Entries()));
}

}  // namespace

TEST_CASE("a place for tables that is a file ends the run before it starts") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    write_file(scratch.path() + "/taken", "mine");
    const Ran ran = run_program(scratch.path(), {"race", "race.toml", "--out", "taken"});
    CHECK(ran.exit_code == 3);
    CHECK(contains(ran.errors, "taken: cannot be written ("));
    CHECK(contains(ran.errors, " -> "));
    CHECK(ran.output.empty());
    CHECK(read_file(scratch.path() + "/taken") == "mine");
}

TEST_CASE("a folder in the way of one table keeps the tables of the run before") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    const std::vector<std::string> words{"race",    "race.toml", "--races", "2048",
                                         "--quiet", "--out",     "out"};
    REQUIRE(run_program(scratch.path(), words).exit_code == 0);
    const std::string out = scratch.path() + "/out/";
    std::filesystem::remove(out + "histogram.csv");
    std::filesystem::create_directory(out + "histogram.csv");
    const std::string before = read_file(out + "percentiles.csv");
    std::vector<std::string> other = words;
    other.insert(other.end(), {"--seed", "99"});
    const Ran ran = run_program(scratch.path(), other);
    CHECK(ran.exit_code == 3);
    CHECK(contains(ran.errors, "histogram.csv: cannot be written ("));
    CHECK(read_file(out + "percentiles.csv") == before);
    CHECK(count_entries(out) == 8);
}

TEST_CASE("output that cannot be written is not called done") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    if (!std::filesystem::exists("/dev/full")) {
        WARN("no /dev/full here: a full output was not tried");
        return;
    }
    for (const char* command : {"check", "course", "race"}) {
        const Ran ran =
            run_program_into(scratch.path(), "/dev/full", {command, "race.toml"});
        CHECK(ran.exit_code == 3);
        CHECK(contains(ran.errors, "standard output: cannot be written"));
    }
}

TEST_CASE("colours appear on a terminal and NO_COLOR takes them away") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    const std::vector<std::string> words{"check", "race.toml"};
    const Ran coloured = run_on_terminal(scratch.path(), words, NoColor::kUnset);
    if (coloured.exit_code < 0) {
        WARN("no terminal to be had here: colours were not tried");
        return;
    }
    CHECK(coloured.exit_code == 0);
    CHECK(contains(coloured.output, "\x1b[1m"));
    // The line of progress still clears itself: that is no colour.
    const Ran plain = run_on_terminal(scratch.path(), words, NoColor::kSet);
    CHECK_FALSE(contains(plain.output, "\x1b[1m"));
    CHECK_FALSE(contains(plain.output, "\x1b[0m"));
}

TEST_CASE("a long study shows how far it is, unless it is to be quiet") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    std::vector<std::string> words{"race", "race.toml", "--races", "1000000"};
    const Ran ran = run_on_terminal(scratch.path(), words, NoColor::kSet);
    CHECK(ran.exit_code == 0);
    CHECK(contains(ran.output, " %"));
    CHECK(contains(ran.output, " left"));
    words.push_back("--quiet");
    CHECK(run_on_terminal(scratch.path(), words, NoColor::kSet).output.empty());
}

TEST_CASE("Ctrl-C ends a study with the days done and whole tables") {
    const ScratchDirectory scratch;
    write_small_race(scratch.path());
    constexpr std::int64_t kMany = 4000000;
    const Ran ran = run_on_terminal(
        scratch.path(),
        {"race", "race.toml", "--races", std::to_string(kMany), "--out", "out"},
        NoColor::kSet, " left");
    CHECK(ran.exit_code == 3);
    CHECK(contains(ran.output, "stopped early after "));
    CHECK(contains(ran.output, "Stopped early"));
    const json manifest = json::parse(read_file(scratch.path() + "/out/manifest.json"));
    CHECK(manifest["stopped_early"] == true);
    CHECK(manifest["race_days"] > 0);
    CHECK(manifest["race_days"] < kMany);
    CHECK(count_entries(scratch.path() + "/out") == 8);
}
