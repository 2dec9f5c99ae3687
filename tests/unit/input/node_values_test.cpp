#include "input/toml/node_values.h"

#include "problem_lines.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::input;
using Lines = std::vector<std::string>;

namespace {

Node read(const std::string& text) {
    base::ProblemList problems;
    Document document = read_toml_text(text, "f", problems);
    REQUIRE(format_lines(problems).empty());
    return document.root.items.at(0);
}

}  // namespace

TEST_CASE("values arrive as the types that a reader wants") {
    base::ProblemList problems;
    CHECK(read_quantity(read("mass = \"70 kg\""), Dimension::kMass, problems) == 70.0);
    CHECK(read_quantity(read("crr = 0.0045"), Dimension::kRatio, problems) == 0.0045);
    CHECK(read_clock(read("start = \"06:10\""), problems)->second_of_day == 22200);
    CHECK(read_clock(read("start = 2026-06-14T08:05:00"), problems)->date);
    CHECK(read_clock(read("start = 08:05:00"), problems)->second_of_day == 29100);
    CHECK(read_text(read("name = \"x\""), problems) == "x");
    CHECK(read_whole_number(read("laps = 2"), problems) == 2);
    CHECK(read_boolean(read("drafting = true"), problems) == true);
    CHECK(format_lines(problems).empty());
}

TEST_CASE("problems name the key and show the line to write") {
    base::ProblemList problems;
    CHECK_FALSE(read_quantity(read("mass = 70"), Dimension::kMass, problems));
    CHECK_FALSE(read_quantity(read("mass = \"70 km\""), Dimension::kMass, problems));
    CHECK_FALSE(read_quantity(read("mass = true"), Dimension::kMass, problems));
    CHECK_FALSE(read_quantity(read("p = 1.2"), Dimension::kProbability, problems));
    CHECK_FALSE(read_quantity(read("x = nan"), Dimension::kNumber, problems));
    CHECK_FALSE(read_clock(read("start = 8"), problems));
    CHECK_FALSE(read_clock(read("start = 2026-06-14"), problems));
    CHECK_FALSE(read_text(read("name = \"\""), problems));
    CHECK_FALSE(read_text(read("name = 5"), problems));
    CHECK_FALSE(read_whole_number(read("laps = 2.5"), problems));
    CHECK_FALSE(read_boolean(read("drafting = \"yes\""), problems));
    CHECK_FALSE(read_quantity(read("w = [70]").items[0], Dimension::kMass, problems));
    CHECK(
        format_lines(problems) ==
        Lines{
            "f:1:8: mass: \"70\" has no unit (a mass needs one) -> write mass = \"70 "
            "kg\", "
            "with its unit: kg, g, lb or oz",
            "f:1:8: mass: \"70 km\" is a length (a mass is wanted) -> write a mass in "
            "kg, "
            "g, lb or oz, such as \"70 kg\"",
            "f:1:8: mass: is true or false (a mass is wanted) -> write mass = \"70 kg\"",
            "f:1:5: p: \"1.2\" is no probability (it is above 1) -> write a share "
            "between "
            "0 % and 100 %, such as \"5 %\" or \"1 in 20\"",
            "f:1:5: x: nan is no finite number -> write x = \"0.8\", for instance",
            "f:1:9: start: is a whole number (a time of day is wanted) -> write start = "
            "\"2026-06-14 08:05\"",
            "f:1:9: start: \"2026-06-14\" has no time of day -> write \"2026-06-14 "
            "08:05\", "
            "or \"08:05\" alone",
            "f:1:8: name: is empty -> write some text between the quotes",
            "f:1:8: name: is a whole number (text in quotes is wanted) -> write name = "
            "\"5\"",
            "f:1:8: laps: is a number (a whole number is wanted) -> write laps = 2",
            "f:1:12: drafting: is text (true or false is wanted) -> write drafting = "
            "true",
            "f:1:6: \"70\" has no unit (a mass needs one) -> write \"70 kg\", with its "
            "unit: kg, g, lb or oz",
        });
}
