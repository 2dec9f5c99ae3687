#include "input/toml/document.h"
#include "problem_lines.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::input;
using Lines = std::vector<std::string>;

namespace {

Document sample() {
    base::ProblemList problems;
    Document document = read_toml_text(
        "race = { goal = \"2:35:00\" }\nkit = [\"tube\", \"plug\"]\n"
        "[[setup]]\nname = \"Butyl\"\npressure = { front = \"68 psi\" }\n"
        "[[setup]]\nname = \"Latex 2.8\"\n",
        "f.toml", problems);
    REQUIRE(format_lines(problems).empty());
    return document;
}

const Node& follow(const Node& from, const Lines& keys) {
    const Node* node = &from;
    for (const std::string& key : keys) {
        node = node->is(NodeKind::kArray) ? &node->items.at(std::stoul(key))
                                          : node->find(key);
        REQUIRE(node != nullptr);
    }
    return *node;
}

struct Change {
    std::string assignment;
    Lines keys;  // elements of lists by position from 0
    NodeKind kind;
    std::string text;
};

}  // namespace

TEST_CASE("a value is set by dotted keys, names and numbers") {
    const std::vector<Change> changes = {
        {"rider.power=240 W", {"rider", "power"}, NodeKind::kString, "240 W"},
        {"race.goal=2:30:00", {"race", "goal"}, NodeKind::kString, "2:30:00"},
        {"setup.Butyl.inner=latex", {"setup", "0", "inner"}, NodeKind::kString, "latex"},
        {"setup.\"Latex 2.8\".pressure.front = 70 psi",
         {"setup", "1", "pressure", "front"},
         NodeKind::kString,
         "70 psi"},
        {"setup.'Latex 2.8'.inner=\"butyl\"",
         {"setup", "1", "inner"},
         NodeKind::kString,
         "butyl"},
        {"setup.2.inner=butyl", {"setup", "1", "inner"}, NodeKind::kString, "butyl"},
        {"kit.2=boot", {"kit", "1"}, NodeKind::kString, "boot"},
        {"rider.crr=0.0045", {"rider", "crr"}, NodeKind::kReal, "0.0045"},
        {"race.laps=3", {"race", "laps"}, NodeKind::kInteger, "3"},
        {"race.drafting=true", {"race", "drafting"}, NodeKind::kBoolean, "true"},
        {"race.day=2026-06-14", {"race", "day"}, NodeKind::kDatetime, "2026-06-14"},
        {"race.name=Heron #2", {"race", "name"}, NodeKind::kString, "Heron #2"},
        {"race.laps=3 # laps", {"race", "laps"}, NodeKind::kString, "3 # laps"},
        {"race.name=a\nb = 2", {"race", "name"}, NodeKind::kString, "a\nb = 2"},
        {"race.name=a=b", {"race", "name"}, NodeKind::kString, "a=b"},
    };
    for (const Change& change : changes) {
        CAPTURE(change.assignment);
        Document document = sample();
        base::ProblemList problems;
        set_value(document, change.assignment, problems);
        CHECK(format_lines(problems).empty());
        const Node& node = follow(document.root, change.keys);
        CHECK(node.kind == change.kind);
        CHECK(node.text == change.text);
        CHECK(node.place.file == "--set");
    }
}

TEST_CASE("a list or a table can be set whole") {
    Document document = sample();
    base::ProblemList problems;
    set_value(document, "kit=[\"tube\", \"tube\", \"boot\"]", problems);
    set_value(document, "rider.power={ mean = \"200 W\", sd = \"10 W\" }", problems);
    CHECK(format_lines(problems).empty());
    CHECK(follow(document.root, {"kit"}).items.size() == 3);
    CHECK(follow(document.root, {"rider", "power", "sd"}).text == "10 W");
    CHECK(follow(document.root, {"rider", "power", "sd"}).place.file == "--set");
}

TEST_CASE("setting a value leaves its neighbours and its key alone") {
    Document document = sample();
    base::ProblemList problems;
    set_value(document, "setup.Butyl.pressure.front=75 psi", problems);
    const Node& setup = follow(document.root, {"setup", "0"});
    CHECK(setup.items.size() == 2);
    CHECK(follow(setup, {"pressure", "front"}).key == "front");
    CHECK(follow(setup, {"name"}).text == "Butyl");
}

TEST_CASE("an assignment that cannot be carried out says what to write") {
    const std::string how = " is not KEY=VALUE -> write --set rider.power=\"240 W\"";
    const std::vector<std::pair<std::string, std::string>> cases = {
        {"rider.power", "--set: rider.power" + how},
        {"=5", "--set: =5" + how},
        {"a..b=5", "--set: a..b=5" + how},
        {"a.\"b=5", "--set: a.\"b=5" + how},
        {"\"a\"b=5", "--set: \"a\"b=5" + how},
        {"", "--set: " + how},
        {"rider.power=",
         "--set: rider.power has no value -> write a value after rider.power="},
        {"include=[]",
         "--set: include cannot be set (files are read before) -> write the include into "
         "the "
         "scenario file"},
        {"setup.Butil.inner=x",
         "--set: setup.Butil.inner: the list has no element \"Butil\" -> write "
         "\"Butyl\""},
        {"setup.Tubeless.inner=x",
         "--set: setup.Tubeless.inner: the list has no element \"Tubeless\" -> write one "
         "of "
         "\"Butyl\", \"Latex 2.8\", or a number from 1 to 2"},
        {"setup.3.inner=x",
         "--set: setup.3.inner: the list has no element \"3\" -> write one of \"Butyl\", "
         "\"Latex 2.8\", or a number from 1 to 2"},
        {"kit.0=x",
         "--set: kit.0: the list has no element \"0\" -> write a number from 1 to 2"},
        {"race.goal.x=1",
         "--set: race.goal.x: \"x\" leads into goal, which is \"2:35:00\", not a table "
         "-> "
         "write goal=VALUE to replace it"},
        {"kit=[1, 2",
         "--set: kit: [1, 2 is not a whole TOML value -> close every quote, bracket and "
         "brace"},
    };
    for (const auto& [assignment, message] : cases) {
        Document document = sample();
        base::ProblemList problems;
        set_value(document, assignment, problems);
        CHECK(format_lines(problems) == Lines{message});
    }
}
