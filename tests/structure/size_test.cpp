#include "structure/size_rules.h"
#include "support/catch.h"

using namespace flattail::structure;

namespace {

std::string repeat(const std::string& text, int times) {
    std::string all;
    for (int i = 0; i < times; ++i) all += text;
    return all;
}

SourceFile write_function(int statements) {
    return {"src/ride/a.cpp",
            "namespace flattail {\n\nint count(int a,\n          int b) {\n" +
                repeat("    ++a;\n", statements) + "}\n\n}  // namespace flattail\n"};
}

}  // namespace

TEST_CASE("no file of the tree is too long") {
    CHECK(join(find_long_files(read_tracked_files(FLATTAIL_SOURCE_DIR))) == "");
}

TEST_CASE("no folder of the tree is too full") {
    CHECK(join(find_crowded_folders(read_tracked_files(FLATTAIL_SOURCE_DIR))) == "");
}

TEST_CASE("no function of the tree is too long") {
    CHECK(join(find_long_functions(read_tracked_files(FLATTAIL_SOURCE_DIR))) == "");
}

TEST_CASE("no line of the tree is too wide") {
    CHECK(join(find_wide_lines(read_tracked_files(FLATTAIL_SOURCE_DIR))) == "");
}

TEST_CASE("every key of a docstring of the tree begins its line") {
    CHECK(join(find_run_on_docstrings(read_tracked_files(FLATTAIL_SOURCE_DIR))) == "");
}

TEST_CASE("a file of 401 lines is too long and one of 400 is not") {
    CHECK(find_long_files({{"tests/unit/a.cpp", repeat("\n", 400)}}).empty());
    CHECK_FALSE(find_long_files({{"tests/unit/a.cpp", repeat("\n", 401)}}).empty());
    CHECK(find_long_files({{"scenarios/lake/course.gpx", repeat("\n", 401)}}).empty());
}

TEST_CASE("a folder of 15 units is too full and a header with its source is one") {
    std::vector<SourceFile> files;
    for (char name = 'a'; name < 'a' + 14; ++name) {
        files.push_back({std::string("src/ride/") + name + ".h", ""});
        files.push_back({std::string("src/ride/") + name + ".cpp", ""});
    }
    CHECK(find_crowded_folders(files).empty());
    files.push_back({"src/ride/z.h", ""});
    CHECK_FALSE(find_crowded_folders(files).empty());
}

TEST_CASE("a folder of 21 public headers is too full and one of 20 is not") {
    std::vector<SourceFile> files;
    for (char name = 'a'; name < 'a' + 20; ++name) {
        files.push_back({std::string("include/flattail/") + name + ".h", ""});
    }
    CHECK(find_crowded_folders(files).empty());
    files.push_back({"include/flattail/z.h", ""});
    CHECK_FALSE(find_crowded_folders(files).empty());
}

TEST_CASE("a function of 61 lines is too long and one of 60 is not") {
    CHECK(find_long_functions({write_function(57)}).empty());
    CHECK_FALSE(find_long_functions({write_function(58)}).empty());
}

TEST_CASE("a line of 91 columns is too wide, and letters count rather than bytes") {
    CHECK(find_wide_lines({{"src/ride/a.cpp", repeat("x", 90) + "\n"}}).empty());
    CHECK(find_wide_lines({{"src/ride/a.cpp", repeat("é", 90) + "\n"}}).empty());
    CHECK_FALSE(find_wide_lines({{"src/ride/a.cpp", repeat("x", 91) + "\n"}}).empty());
}

TEST_CASE("a key in the middle of a docstring's line is found") {
    CHECK(find_run_on_docstrings({{"src/ride/a.h", "/// Units:   SI\n"}}).empty());
    CHECK(find_run_on_docstrings({{"src/ride/a.h", "    /// Range: all\n"}}).empty());
    CHECK_FALSE(
        find_run_on_docstrings({{"src/ride/a.h", "/// A sum. Units: SI\n"}}).empty());
}
