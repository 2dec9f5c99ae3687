#include "input/tables/csv.h"
#include "problem_lines.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::input;
using Lines = std::vector<std::string>;

namespace {

CsvTable read(const std::string& text) {
    base::ProblemList problems;
    auto table = read_csv_text(text, "f.csv", problems);
    REQUIRE(table);
    return *table;
}

CsvQuantities read_distance(const std::string& text, Need need = Need::kRequired) {
    base::ProblemList problems;
    CsvQuantities values =
        read(text).read_column("distance", Dimension::kLength, need, problems);
    CHECK(format_lines(problems).empty());
    return values;
}

Lines find_problems(const std::string& text, Dimension dimension = Dimension::kLength) {
    base::ProblemList problems;
    read(text).read_column("distance", dimension, Need::kRequired, problems);
    return format_lines(problems);
}

}  // namespace

TEST_CASE("a unit stands in the header or in the cell") {
    CHECK(read_distance("distance_km\n1.5\n2\n") == CsvQuantities{1500, 2000});
    CHECK(read_distance("Distance [km]\n1.5\n2 mi\n") == CsvQuantities{1500, 3218.688});
    CHECK(read_distance("distance\n12 km\n300 m\n") == CsvQuantities{12000, 300});
}

TEST_CASE("a decimal comma is read where the comma does not separate cells") {
    CHECK(read_distance("distance_km;x\n1,5;0\n-0,25;0\n") == CsvQuantities{1500, -250});
    CHECK(read_distance("distance\tx\n1,5 km\t0\n") == CsvQuantities{1500});
    CHECK(find_problems("distance_km;x\n1.234,5;0\n") ==
          Lines{"f.csv:2:1: distance: \"1.234,5\" has a comma inside the number -> write "
                "1.234.5 with a decimal point"});
}

TEST_CASE("an absent optional column is empty, an empty cell in it is nothing") {
    CHECK(read_distance("other\n1\n", Need::kOptional).empty());
    CHECK(read_distance("distance_km,b\n1,2\n,3\n", Need::kOptional) ==
          CsvQuantities{1000, std::nullopt});
}

TEST_CASE("durations, directions and clock times stand in columns as well") {
    const CsvTable table = read(
        "time,wait_min,from,at,chance\n2:31:44,8,WSW,08:05,5 %\n1 h,9,0 deg,09:05,1 in "
        "20\n");
    base::ProblemList problems;
    CHECK(table.read_column("time", Dimension::kTime, Need::kRequired, problems) ==
          CsvQuantities{9104, 3600});
    CHECK(table.read_column("wait", Dimension::kTime, Need::kRequired, problems) ==
          CsvQuantities{480, 540});
    CHECK(table.read_column("from", Dimension::kDirection, Need::kRequired,
                            problems)[1] == 0.0);
    CHECK(table.read_column("chance", Dimension::kProbability, Need::kRequired,
                            problems) == CsvQuantities{0.05, 0.05});
    CHECK(table.read_clock_column("at", Need::kRequired, problems)[1]->second_of_day ==
          32700);
    CHECK(table.read_text_column("from", Need::kRequired, problems) ==
          Lines{"WSW", "0 deg"});
    CHECK(format_lines(problems).empty());
}

TEST_CASE("a column that does not fit is told once, a cell each time") {
    const std::vector<std::pair<std::string, Lines>> cases = {
        {"distance\n1\n2\n",
         {"f.csv:1:1: column distance has no unit (a length needs one) -> name it in the "
          "header, such as distance [m]"}},
        {"x,distance_kg\n1,2\n3,4\n",
         {"f.csv:1:3: column distance_kg: unit kg does not fit (a length is wanted) -> "
          "write "
          "the column as distance [m]"}},
        {"distance [furlong]\n1\n",
         {"f.csv:1:1: column distance [furlong]: unit furlong does not fit (a length is "
          "wanted) -> write the column as distance [m]"}},
        {"distnce_km,b\n1,2\n",
         {"f.csv:1: has no column distance (it has: distnce, b) -> rename distnce to "
          "distance"}},
        {"x\n1\n",
         {"f.csv:1: has no column distance (it has: x) -> add a column distance"}},
        {"distance_km,b\nfar,1\n\"1,5\",2\n,3\n1 kg,4\nnan,5\n",
         {"f.csv:2:1: distance: \"far\" does not start with a number -> write the number "
          "first, then its unit",
          "f.csv:3:1: distance: \"1,5\" has a comma inside the number -> write 1.5 with "
          "a "
          "decimal point",
          "f.csv:4:1: distance: the cell is empty -> write a value in every row of this "
          "column",
          "f.csv:5:1: distance: \"1 kg\" is a mass (a length is wanted) -> write a "
          "length in "
          "m, km, cm, mm, mi, ft or inch, such as \"90 km\"",
          "f.csv:6:1: distance: \"nan\" is no finite number -> write a plain number"}},
    };
    for (const auto& [text, lines] : cases) {
        CAPTURE(text);
        CHECK(find_problems(text) == lines);
    }
}

TEST_CASE("rates need no unit in the header") {
    CHECK(
        find_problems("distance\n0.4\n", Dimension::kRatePerDistance) ==
        Lines{"f.csv:2:1: distance: \"0.4\" is not a rate -> write it like \"1 per 3000 "
              "km\""});
}

TEST_CASE("unknown columns are named with the nearest known one") {
    base::ProblemList problems;
    read("from_km,surfase,note\n1,2,3\n")
        .check_columns({"from", "to", "surface", "shelter"}, problems);
    CHECK(format_lines(problems) ==
          Lines{"f.csv:1:9: column surfase is not known -> rename it to surface",
                "f.csv:1:17: column note is not known -> take it out, or use one of "
                "from, to, "
                "surface, shelter"});
}

TEST_CASE("text and clock columns report their own gaps") {
    const CsvTable table = read("at,name\n25:00,x\n08:00,\n");
    base::ProblemList problems;
    table.read_clock_column("at", Need::kRequired, problems);
    table.read_text_column("name", Need::kRequired, problems);
    CHECK(
        format_lines(problems) ==
        Lines{
            "f.csv:2:1: at: \"25:00\" is no time of day -> write \"2026-06-14 08:05\", "
            "or "
            "\"08:05\" alone",
            "f.csv:3:7: name: the cell is empty -> write some text in every row of this "
            "column"});
}
