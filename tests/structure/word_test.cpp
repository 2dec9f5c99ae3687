#include "structure/word_rules.h"
#include "support/catch.h"

using namespace flattail::structure;

namespace {

bool is_refused(const std::string& text) {
    return !find_forbidden_words({{"src/ride/a.cpp", text}}).empty();
}

bool is_side_door(const std::string& path, const std::string& line) {
    return !find_side_doors({{path, line + "\n"}}).empty();
}

}  // namespace

TEST_CASE("no file of the tree holds a forbidden word") {
    CHECK(join(find_forbidden_words(read_tracked_files(FLATTAIL_SOURCE_DIR))) == "");
}

TEST_CASE("nothing strange stands at the top of the tree") {
    CHECK(join(find_strange_top_entries(read_tracked_files(FLATTAIL_SOURCE_DIR))) == "");
}

TEST_CASE(
    "the library of the tree neither prints, exits nor reads clock or environment") {
    CHECK(join(find_side_doors(read_tracked_files(FLATTAIL_SOURCE_DIR))) == "");
}

TEST_CASE("forbidden words are found whole and in their own case") {
    CHECK(is_refused(std::string("// TO") + "DO: later"));
    CHECK(is_refused(std::string("/* XX") + "X */"));
    CHECK(is_refused(std::string("throw Error(\"Not ") + "implemented yet\")"));
    CHECK(is_refused(std::string("see /wo") + "rk/main"));
    CHECK_FALSE(is_refused("mktemp -d /tmp/run.XXXXXX"));
    CHECK_FALSE(is_refused("a method to do this"));
}

TEST_CASE("a course file may say what it likes") {
    CHECK(find_forbidden_words({{"scenarios/a/course.gpx", std::string("XX") + "X"}})
              .empty());
}

TEST_CASE("an unknown entry at the top is found and a dot-file is not") {
    CHECK(find_strange_top_entries({{".ci/run", ""}, {"src/base/a.h", ""}}).empty());
    CHECK_FALSE(find_strange_top_entries({{"notes/a.md", ""}}).empty());
    CHECK_FALSE(find_strange_top_entries({{"a.py", ""}}).empty());
}

TEST_CASE("printing, exiting and clocks are found outside the program") {
    CHECK(is_side_door("src/study/a.cpp", "std::cerr << 1;"));
    CHECK(is_side_door("src/study/a.cpp", "printf(\"x\");"));
    CHECK(is_side_door("src/ride/a.cpp", "auto t = std::chrono::steady_clock::now();"));
    CHECK(is_side_door("include/flattail/a.h", "std::exit(1);"));
    CHECK(is_side_door("tests/unit/ride/a.cpp", "std::chrono::system_clock::now();"));
    CHECK_FALSE(is_side_door("src/app/a.cpp", "std::cerr << std::getenv(\"NO_COLOR\");"));
    CHECK_FALSE(is_side_door("src/ride/a.cpp", "std::snprintf(text, 9, \"%d\", 1);"));
    CHECK_FALSE(is_side_door("src/ride/a.cpp", "// never std::exit here"));
}
