// `flattail start`: questions on a terminal, else a commented file; both run at once.
#include "end_to_end/program.h"
#include "support/catch.h"
#include "support/scratch_directory.h"

using namespace flattail::test;

TEST_CASE("start without a terminal writes a commented file that runs at once") {
    const ScratchDirectory scratch;
    const std::string& folder = scratch.path();
    REQUIRE(run_program(folder, {"start", "mine.toml"}).exit_code == 0);
    const std::string text = read_file(folder + "/mine.toml");
    CHECK(text.find("# goal = ") != std::string::npos);
    CHECK(run_program(folder, {"check", "mine.toml"}).exit_code == 0);
    const Ran raced = run_program(folder, {"race", "mine.toml", "--races", "2000"});
    CHECK(raced.exit_code == 0);
    CHECK(raced.output.find("CHOICE") != std::string::npos);
}

TEST_CASE("start never overwrites a file") {
    const ScratchDirectory scratch;
    const std::string& folder = scratch.path();
    write_file(folder + "/mine.toml", "precious\n");
    const Ran ran = run_program(folder, {"start", "mine.toml"});
    CHECK(ran.exit_code == 2);
    CHECK(ran.errors.find("is there already") != std::string::npos);
    CHECK(read_file(folder + "/mine.toml") == "precious\n");
}

TEST_CASE(
    "start asks on a terminal, asks again after a mistake, and what it writes runs") {
    const ScratchDirectory scratch;
    const Ran asked = talk_to_program(scratch.path(), {"start", "mine.toml"},
                                      {{"race called", {"Alder Loop"}},
                                       {"on the bike (date", {"2026-06-14 08:05"}},
                                       {"how long is the course", {"40", "40 km"}},
                                       {"without the bicycle", {"70 kg"}},
                                       {"Your position", {"hods", "hoods"}},
                                       {"power you expect", {"don't know"}},
                                       {"a ride alone", {"40 km, 1:12:00, 300 m"}},
                                       {"tyre on the bike", {"race 28mm"}},
                                       {"limits marked", {"6.5 bar"}},
                                       {"rim hookless", {"TPU", "N"}},
                                       {"Help on the course", {"59:30", "Off"}},
                                       {"How deep the rim", {"50 mm"}},
                                       {"What else could hold", {"latex, TPU"}},
                                       {"When you pump", {"06:10"}},
                                       {"How warm air", {"11 C"}}});
    CHECK(asked.exit_code == 0);
    CHECK(contains(asked.output, "\"40\" has no unit"));
    CHECK(contains(asked.output, "cannot be \"hods\""));
    CHECK_FALSE(contains(asked.output, "the time you expect"));  // a past ride is known
    CHECK(find_widest(asked.output) <= 80);
    const std::string text = read_file(scratch.path() + "/mine.toml");
    CHECK(contains(text,
                   "past_ride = { distance = \"40 km\", time = \"1:12:00\", "
                   "climb = \"300 m\" }"));
    CHECK(contains(text, "pumped = \"06:10\"\nat = \"11 C\"\n"));
    CHECK(contains(text, "depth = \"50 mm\""));
    CHECK(contains(text, "hookless = false"));
    CHECK(contains(text, "help = \"officials\""));
    CHECK(contains(asked.output, "write yes or no"));
    CHECK(contains(asked.output, "write none or officials"));
    // One limit is enough for the pump, however the tyre was spelt.
    const Ran pumped = run_program(scratch.path(), {"pump", "mine.toml"});
    CHECK(contains(pumped.output, "At most 94 psi (6.5 bar)"));
    CHECK_FALSE(contains(pumped.output, "No figure"));
    const Ran raced =
        run_program(scratch.path(), {"race", "mine.toml", "--races", "2000"});
    INFO(raced.errors);
    CHECK(raced.exit_code == 0);
    for (const char* name : {"butyl (on now)", "latex", "TPU", "Alder Loop"}) {
        CHECK(contains(raced.output, name));
    }
}

TEST_CASE("start goes back to a question answered wrongly, or not at all") {
    const ScratchDirectory scratch;
    const Ran asked =
        talk_to_program(scratch.path(), {"start", "mine.toml"},
                        {{"race called", {"back", "Alder Lop", "Alder Loop"}},
                         {"on the bike (date", {"back", "2026-06-14 08:05"}},
                         {"without the bicycle", {"70 kg"}},
                         {"Your position", {"back", "hoods"}}});
    CHECK(asked.exit_code == 0);
    const std::string text = read_file(scratch.path() + "/mine.toml");
    CHECK(contains(text, "name = \"Alder Loop\""));
    CHECK(contains(text, "bike_start = \"2026-06-14 08:05\""));
    CHECK(contains(text, "position = \"hoods\""));
    // Looked at again and left as it was.
    CHECK(contains(asked.output, "now 70 kg; an empty line keeps it"));
    CHECK(contains(text, "mass = \"70 kg\""));
}
