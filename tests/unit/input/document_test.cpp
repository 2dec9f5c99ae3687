#include "input/toml/document.h"

#include "problem_lines.h"
#include "support/catch.h"
#include "temporary_folder.h"

using namespace flattail;
using namespace flattail::input;
using Lines = std::vector<std::string>;

namespace {

Node read(const std::string& text) {
    base::ProblemList problems;
    Document document = read_toml_text(text, "f.toml", problems);
    REQUIRE(format_lines(problems).empty());
    return document.root;
}

const Node& at(const Node& node, std::string_view key) {
    const Node* found = node.find(key);
    REQUIRE(found != nullptr);
    return *found;
}

std::string show_place(const Place& place) {
    return place.file + ':' + std::to_string(place.line) + ':' +
           std::to_string(place.column);
}

}  // namespace

TEST_CASE("every kind of value arrives with its place") {
    const Node root = read(
        "text = \"70 kg\"\n"
        "  whole = 7\n"
        "real = 0.0045\n"
        "flag = true\n"
        "when = 2026-06-14T08:05:00\n"
        "list = [\"a\", \"b\"]\n"
        "[rider]\n"
        "\"long name\" = { mean = \"200 W\" }\n");
    CHECK(at(root, "text").text == "70 kg");
    CHECK(show_place(at(root, "text").place) == "f.toml:1:8");
    CHECK(at(root, "whole").integer == 7);
    CHECK(at(root, "whole").number == 7.0);
    CHECK(show_place(at(root, "whole").key_place) == "f.toml:2:3");
    CHECK(show_place(at(root, "whole").place) == "f.toml:2:11");
    CHECK(at(root, "real").number == 0.0045);
    CHECK(at(root, "real").text == "0.0045");
    CHECK(at(root, "flag").boolean);
    CHECK(at(root, "when").kind == NodeKind::kDatetime);
    CHECK(at(root, "when").text == "2026-06-14T08:05:00");
    CHECK(show_place(at(root, "list").items[1].place) == "f.toml:6:14");
    CHECK(show_place(at(root, "rider").place) == "f.toml:7:1");
    const Node& named = at(at(root, "rider"), "long name");
    CHECK(show_place(at(named, "mean").place) == "f.toml:8:24");
}

TEST_CASE("dates, times and offsets keep their TOML form") {
    const Node root = read(
        "a = 2026-06-14\nb = 06:10:05.250\nc = 2026-06-14 08:05:00Z\n"
        "d = 2026-06-14 08:05:00-02:30\n");
    CHECK(at(root, "a").text == "2026-06-14");
    CHECK(at(root, "b").text == "06:10:05.250000000");
    CHECK(at(root, "c").text == "2026-06-14T08:05:00Z");
    CHECK(at(root, "d").text == "2026-06-14T08:05:00-02:30");
}

TEST_CASE("entries keep the order in which they were written") {
    const Node root =
        read("zebra = 1\nant = 2\nmole.b = 3\nmole.a = 4\n[[setup]]\nz=1\na=2\n");
    Lines keys;
    for (const Node& item : root.items) keys.push_back(item.key);
    CHECK(keys == Lines{"zebra", "ant", "mole", "setup"});
    CHECK(at(root, "mole").items[0].key == "b");
    CHECK(at(root, "setup").is_table_list());
    CHECK(at(root, "setup").items[0].items[0].key == "z");
}

TEST_CASE("values describe themselves in a reader's words") {
    const Node root = read("a = \"x\"\nb = 5\nc = [1]\nd = { e = 1 }\n");
    CHECK(describe_value(at(root, "a")) == "\"x\"");
    CHECK(describe_value(at(root, "b")) == "5");
    CHECK(describe_value(at(root, "c")) == "a list");
    CHECK(describe_value(at(root, "d")) == "a table");
}

TEST_CASE("an included file fills in what the including file leaves open") {
    const TemporaryFolder folder;
    const std::string main = folder.write("main.toml",
                                          "include = [\"parts/lib.toml\"]\n"
                                          "rider = { mass = \"70 kg\" }\n"
                                          "kit = [\"tube\"]\n"
                                          "[[setup]]\nname = \"Own\"\n");
    const std::string lib =
        folder.write("parts/lib.toml",
                     "kit = [\"plug\", \"boot\"]\n"
                     "rider = { mass = \"80 kg\", power = \"200 W\" }\n"
                     "[[setup]]\nname = \"Shared\"\n"
                     "[[tyre]]\nname = \"thin\"\n");
    base::ProblemList problems;
    const Document document = read_toml(main, problems);
    REQUIRE(format_lines(problems).empty());
    CHECK(document.files == Lines{main, lib});
    CHECK(document.root.find("include") == nullptr);
    const Node& rider = at(document.root, "rider");
    CHECK(at(rider, "mass").text == "70 kg");
    CHECK(at(rider, "power").text == "200 W");
    CHECK(at(rider, "power").place.file == lib);
    CHECK(at(document.root, "kit").items.size() == 1);
    const Node& setups = at(document.root, "setup");
    REQUIRE(setups.items.size() == 2);
    CHECK(at(setups.items[0], "name").text == "Own");
    CHECK(at(setups.items[1], "name").text == "Shared");
    CHECK(at(document.root, "tyre").items.size() == 1);
}

TEST_CASE("a file reached by two ways is merged once") {
    const TemporaryFolder folder;
    const std::string main =
        folder.write("main.toml", "include = [\"a.toml\", \"b.toml\"]\n");
    folder.write("a.toml", "include = \"c.toml\"\n");
    folder.write("b.toml", "include = [\"./c.toml\"]\n");
    folder.write("c.toml", "[[tyre]]\nname = \"thin\"\n");
    base::ProblemList problems;
    const Document document = read_toml(main, problems);
    REQUIRE(format_lines(problems).empty());
    CHECK(document.files.size() == 4);
    CHECK(at(document.root, "tyre").items.size() == 1);
}

TEST_CASE("circles, missing files and odd entries are all reported with their place") {
    const TemporaryFolder folder;
    const std::string main = folder.write(
        "main.toml",
        "include = [\"a.toml\", \"gone.toml\",\n    5]\n[setup]\nname = \"x\"\n");
    const std::string a =
        folder.write("a.toml", "include = [\"main.toml\"]\n[[setup]]\nname = \"y\"\n");
    base::ProblemList problems;
    read_toml(main, problems);
    CHECK(format_lines(problems) ==
          Lines{a + ":1:12: " + main +
                    " includes itself (a circle of includes) -> take this entry out",
                main + ":3:2: setup is a table here and a list in " + a +
                    ", line 2 -> write [[setup]] in both files, or [setup] in both",
                main + ":1:22: cannot read " + folder.path("gone.toml") +
                    " (no such file) -> check the name and the folder",
                main + ":2:5: include holds 5 (paths are wanted) -> write include = "
                       "[\"lib.toml\"]"});
}

TEST_CASE("a malformed library is reported in its own file") {
    const TemporaryFolder folder;
    const std::string main = folder.write("main.toml", "include = \"lib.toml\"\na = 1\n");
    const std::string lib = folder.write("lib.toml", "mass = 70 kg\n");
    base::ProblemList problems;
    const Document document = read_toml(main, problems);
    CHECK(format_lines(problems) ==
          Lines{lib +
                ":1:11: is not valid TOML (key-value pair: expected a comment or "
                "whitespace, found 'k') -> put the value in quotes: mass = \"70 kg\""});
    CHECK(at(document.root, "a").integer == 1);
}

TEST_CASE("a missing scenario is one clear problem") {
    base::ProblemList problems;
    const Document document = read_toml("/nowhere/x.toml", problems);
    CHECK(
        format_lines(problems) ==
        Lines{"/nowhere/x.toml: cannot read /nowhere/x.toml (no such file) -> check the "
              "name and the folder"});
    CHECK(document.root.items.empty());
}

TEST_CASE("a path is taken from the folder of the file that names it") {
    Node node;
    node.kind = NodeKind::kString;
    node.text = "../course.gpx";
    node.place.file = "scenarios/lakeside/scenario.toml";
    CHECK(resolve_path(node) == "scenarios/course.gpx");
    node.place.file = "scenario.toml";
    CHECK(resolve_path(node) == "../course.gpx");
    node.text = "/abs/course.gpx";
    CHECK(resolve_path(node) == "/abs/course.gpx");
    node.text = "course.gpx";
    node.place.file = kSetPlace;
    CHECK(resolve_path(node) == "course.gpx");
}
