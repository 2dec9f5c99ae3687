#include "input/text/text_file.h"

#include "problem_lines.h"
#include "support/catch.h"
#include "temporary_folder.h"

using namespace flattail;
using namespace flattail::input;
using Lines = std::vector<std::string>;

TEST_CASE("a missing file is named together with a similar one") {
    const TemporaryFolder folder;
    folder.write("lakes.gpx", "x");
    base::ProblemList problems;
    const std::string path = folder.path("lake.gpx");
    CHECK_FALSE(read_text_file(path, 100, problems));
    CHECK(format_lines(problems) ==
          Lines{path + ": cannot read " + path +
                " (no such file) -> check the name: lakes.gpx is in that folder"});
}

TEST_CASE("a missing file is reported where another file names it") {
    base::ProblemList problems;
    CHECK_FALSE(read_text_file("/nowhere/q.csv", 100, problems, {"a.toml", 3, 9}));
    CHECK(format_lines(problems) ==
          Lines{"a.toml:3:9: cannot read /nowhere/q.csv (no such "
                "file) -> check the name and the folder"});
}

TEST_CASE("a folder is no file") {
    const TemporaryFolder folder;
    base::ProblemList problems;
    const std::string path = folder.path("");
    CHECK_FALSE(read_text_file(path, 100, problems));
    CHECK(format_lines(problems) == Lines{path + ": cannot read " + path +
                                          " (it is a folder) -> name a file inside it"});
}

TEST_CASE("a file is read up to its limit and not beyond") {
    const TemporaryFolder folder;
    const std::string text(300'000, 'x');
    const std::string path = folder.write("long.txt", text);
    base::ProblemList problems;
    const auto whole = read_text_file(path, text.size(), problems);
    REQUIRE(whole);
    CHECK(whole->text == text);
    CHECK_FALSE(read_text_file(path, text.size() - 1, problems));
    CHECK(format_lines(problems) ==
          Lines{path +
                ": is larger than 0.299999 MB, the most that is read here -> check "
                "that it is the right file, or cut it down"});
}

TEST_CASE("an endless device stops at the limit") {
    base::ProblemList problems;
    CHECK_FALSE(read_text_file("/dev/zero", 1000, problems));
    CHECK(problems.error_count() == 1);
}

TEST_CASE("a byte order mark is taken off") {
    base::ProblemList problems;
    const auto file = check_text(
        "\xEF\xBB\xBF"
        "a",
        "f", 100, problems);
    REQUIRE(file);
    CHECK(file->text == "a");
}

TEST_CASE("zero bytes and broken UTF-8 are placed") {
    struct Case {
        std::string text;
        std::string message;
    };
    const std::string hint = " (an older encoding?) -> save the file with encoding UTF-8";
    const std::vector<Case> cases = {
        {std::string("ab\nc\0d", 6),
         "f:2:2: holds a zero byte (it is not a plain text file) -> save it as text with "
         "encoding UTF-8"},
        {"na\xEFve", "f:1:3: byte 0xEF is not UTF-8" + hint},
        {"\xC3\xA9\xC3\xA9\xFF", "f:1:3: byte 0xFF is not UTF-8" + hint},
        // Overlong, a surrogate, past the last code point, cut short: Unicode table 3-7.
        {"\xC0\xAF", "f:1:1: byte 0xC0 is not UTF-8" + hint},
        {"\xE0\x80\x80", "f:1:1: byte 0xE0 is not UTF-8" + hint},
        {"\xED\xA0\x80", "f:1:1: byte 0xED is not UTF-8" + hint},
        {"\xF4\x90\x80\x80", "f:1:1: byte 0xF4 is not UTF-8" + hint},
        {"\xF0\x9F\x9A", "f:1:1: byte 0xF0 is not UTF-8" + hint},
    };
    for (const Case& c : cases) {
        base::ProblemList problems;
        CHECK_FALSE(check_text(c.text, "f", 100, problems));
        CHECK(format_lines(problems) == Lines{c.message});
    }
    base::ProblemList problems;
    CHECK(check_text("\u00E9\u20AC\U0001F6B4", "f", 100, problems));
}

TEST_CASE("columns count characters, not bytes") {
    const std::string text = "\u00E9\u20ACx\ny\U0001F6B4z";
    const TextPlaces places(text, "f");
    CHECK(places.at(5).line == 1);
    CHECK(places.at(5).column == 3);
    CHECK(places.at(text.size() - 1).line == 2);
    CHECK(places.at(text.size() - 1).column == 3);
    CHECK(places.at(10'000).column == 4);
    CHECK(places.line(1) == "\u00E9\u20ACx");
    CHECK(places.line(3).empty());
}

TEST_CASE("places agree with counting from the start, across blocks and lines") {
    std::string text;
    for (int i = 0; i < 700; ++i)
        text += i % 97 == 0 ? "\n" : i % 5 == 0 ? "\u00E9" : "ab";
    const TextPlaces places(text, "f");
    int line = 1;
    int column = 1;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool inside = (static_cast<unsigned char>(text[i]) & 0xC0U) == 0x80U;
        if (!inside) {
            REQUIRE(places.at(i).line == line);
            REQUIRE(places.at(i).column == column);
            ++column;
        }
        if (text[i] == '\n') {
            ++line;
            column = 1;
        }
    }
}
