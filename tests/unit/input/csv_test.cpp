#include "input/tables/csv.h"

#include "problem_lines.h"
#include "support/catch.h"
#include "temporary_folder.h"

using namespace flattail;
using namespace flattail::input;
using Lines = std::vector<std::string>;

namespace {

CsvTable read(const std::string& text) {
    base::ProblemList problems;
    auto table = read_csv_text(text, "f.csv", problems);
    REQUIRE(format_lines(problems).empty());
    REQUIRE(table);
    return *table;
}

Lines read_problems(const std::string& text) {
    base::ProblemList problems;
    CHECK_FALSE(read_csv_text(text, "f.csv", problems));
    return format_lines(problems);
}

Lines show_cells(const CsvTable& table) {
    Lines cells;
    for (const auto& row : table.rows) {
        for (const CsvCell& cell : row) {
            cells.push_back(std::to_string(cell.line) + ':' +
                            std::to_string(cell.column) + ' ' + cell.text);
        }
    }
    return cells;
}

}  // namespace

TEST_CASE("quotes follow RFC 4180") {
    // RFC 4180, section 2, rules 5 to 7: commas, line breaks and doubled quotes in cells.
    const CsvTable table =
        read("a,b\r\n\"x,y\",\"l1\r\nl2\"\r\n\"aa \"\"b\"\" c\", z \r\n");
    CHECK(show_cells(table) ==
          Lines{"2:1 x,y", "2:7 l1\r\nl2", "4:1 aa \"b\" c", "4:15 z"});
}

TEST_CASE("the last line may lack its end and a byte order mark may stand in front") {
    CHECK(show_cells(read("\xEF\xBB\xBF"
                          "a,b\n1,2")) == Lines{"2:1 1", "2:3 2"});
    CHECK(read("\xEF\xBB\xBF"
               "a,b\n1,2")
              .columns[0]
              .place.column == 1);
}

TEST_CASE("cells are placed by line and column, blank lines and empty cells included") {
    const CsvTable table = read("\u00E9t\u00E9;b;c\n\n \u00E9 ;;3\n\n;  5;\n");
    CHECK(show_cells(table) ==
          Lines{"3:2 \u00E9", "3:5 ", "3:6 3", "5:1 ", "5:4 5", "5:6 "});
}

TEST_CASE("rows of empty cells at the end of a spreadsheet are no rows") {
    CHECK(read("a;b\n1;2\n;\n;\n").rows.size() == 1);
}

TEST_CASE("the header tells comma, semicolon and tab apart") {
    CHECK(read("a,b\n1,2\n").delimiter == ',');
    CHECK(read("a;b\n1,5;2\n").delimiter == ';');
    CHECK(read("a\tb\n1\t2\n").delimiter == '\t');
    CHECK(read("\"a,b,c\";d\n1;2\n").delimiter == ';');
    CHECK(read("alone\n1\n").delimiter == ',');
    CHECK(show_cells(read("a\tb\n\t2\n")) == Lines{"2:1 ", "2:2 2"});
}

TEST_CASE("units are read from the header") {
    struct Case {
        const char* header;
        const char* name;
        const char* unit;
    };
    const Case cases[] = {
        {"distance_km", "distance", "km"},
        {"Distance [km]", "distance", "km"},
        {"wind (km/h)", "wind", "km/h"},
        {"wind_km_h", "wind", "km/h"},
        {"wind_m_s", "wind", "m/s"},
        {"humidity_percent", "humidity", "%"},
        {"bike_start", "bike_start", ""},
        {"rider.mass_kg", "rider.mass", "kg"},
        {"note", "note", ""},
        {"_km", "_km", ""},
        {"drag_area_m2", "drag_area", "m2"},
    };
    for (const Case& c : cases) {
        const CsvTable table = read(std::string(c.header) + "\n1\n");
        CAPTURE(c.header);
        CHECK(table.columns[0].name == c.name);
        CHECK(table.columns[0].unit == c.unit);
        CHECK(table.find_column(c.header) == 0U);
        CHECK(table.find_column(c.name) == 0U);
    }
}

TEST_CASE("a broken table says where and what to do") {
    const std::vector<std::pair<std::string, Lines>> cases = {
        {"",
         {"f.csv: is empty -> write a header line with column names, then one line per "
          "row"}},
        {"\n \n",
         {"f.csv: is empty -> write a header line with column names, then one line per "
          "row"}},
        {"a,b\n",
         {"f.csv:1: has a header and no rows -> add at least one row below the header"}},
        {"a,b,a\n1,2,3\n",
         {"f.csv:1:5: column a is there twice (also in column 1) -> keep one of the two, "
          "or "
          "rename it"}},
        {"a_km,A [m]\n1,2\n",
         {"f.csv:1:6: column a is there twice (also in column 1) -> keep one of the two, "
          "or "
          "rename it"}},
        {"a,,c\n1,2,3\n",
         {"f.csv:1:3: column 2 has no name -> name it in the header, or take the column "
          "out"}},
        {"a,b\n1\n1,2,3\n1,2\n",
         {"f.csv:2:1: the row has 1 cell and the header 2 -> fill the row up; an unknown "
          "value "
          "is an empty cell",
          "f.csv:3:5: the row has 3 cells and the header 2 -> take the extra cells out, "
          "or put "
          "text with commas in quotes"}},
        {"a,b\n1\"2,3\n",
         {"f.csv:2:2: has a quote in the middle of a cell -> put the whole cell in "
          "quotes and "
          "double each quote inside"}},
        {"a,b\n\"1\"2,3\n",
         {"f.csv:2:4: has a quote in the middle of a cell -> put the whole cell in "
          "quotes and "
          "double each quote inside"}},
        {"a,b\n1, \"2\n3\n",
         {"f.csv:2:4: opens a quote that is never closed -> close it with \" at the end "
          "of the "
          "cell"}},
        {std::string("a,b\n1,\0\n", 8),
         {"f.csv:2:3: holds a zero byte (it is not a plain text file) -> save it as text "
          "with "
          "encoding UTF-8"}},
        {"a,b\n1,caf\xE9\n",
         {"f.csv:2:6: byte 0xE9 is not UTF-8 (an older encoding?) -> save the file with "
          "encoding UTF-8"}},
    };
    for (const auto& [text, lines] : cases) {
        CAPTURE(text);
        CHECK(read_problems(text) == lines);
    }
}

TEST_CASE("a file of another kind is named as such") {
    const std::string rest =
        " and no table of columns (CSV) -> name a file whose first line holds names of "
        "columns";
    CHECK(read_problems("# mine\n\nrace = { course = \"a, b\" }\n") ==
          Lines{"f.csv:1:1: is TOML, perhaps a scenario," + rest});
    CHECK(read_problems("[rider]\nmass = 1\n") ==
          Lines{"f.csv:1:1: is TOML, perhaps a scenario," + rest});
    CHECK(read_problems("<?xml version=\"1.0\"?>") ==
          Lines{"f.csv:1:1: is XML, perhaps a GPX track," + rest});
    CHECK(read_problems("{\"a\": 1}") == Lines{"f.csv:1:1: is JSON" + rest});
    CHECK(show_cells(read("name,a=b\n1,2\n")) == Lines{"2:1 1", "2:3 2"});
}

TEST_CASE("the same mistake in many rows is told ten times and then counted") {
    std::string text = "a,b\n";
    for (int i = 0; i < 500; ++i) text += "1\n";
    const Lines lines = read_problems(text);
    REQUIRE(lines.size() == 11);
    CHECK(
        lines.back() ==
        "f.csv:12:1: and 490 more of the same kind from here on -> give each row as many "
        "cells as the header");
}

TEST_CASE("one endless line is read in time that grows with its length") {
    std::string text;
    for (int i = 0; i < 200'000; ++i) text += "c" + std::to_string(i) + ',';
    base::ProblemList problems;
    // Half a million characters of header; counting columns from the start would take
    // minutes.
    CHECK_FALSE(read_csv_text("a\n" + text, "f.csv", problems));
    CHECK(problems.error_count() == 1);
}

TEST_CASE("a file is read from disk and missed where it was asked for") {
    const TemporaryFolder folder;
    base::ProblemList problems;
    const auto table = read_csv(folder.write("t.csv", "a\n1\n"), problems);
    REQUIRE(table);
    CHECK(table->file == folder.path("t.csv"));
    CHECK_FALSE(read_csv(folder.path("u.csv"), problems, {"s.toml", 4, 2}));
    CHECK(problems.all()[0].place.file == "s.toml");
}
