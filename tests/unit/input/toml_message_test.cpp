// What a reader sees after a slip in a TOML file.
#include "input/toml/document.h"
#include "problem_lines.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::input;

namespace {

struct Slip {
    std::string text;
    std::string message;
};

const std::vector<Slip> kSlips = {
    {"mass = 70 kg\n",
     "f:1:11: is not valid TOML (key-value pair: expected a comment or whitespace, found "
     "'k') "
     "-> put the value in quotes: mass = \"70 kg\""},
    {"goal = 2:35:00 # fast\n",
     "f:1:9: is not valid TOML (time: expected 2-digit hour, found ':') -> put the value "
     "in "
     "quotes: goal = \"2:35:00\""},
    {"start = 2026-06-14 08:05\n",
     "f:1:25: is not valid TOML (time: expected ':', found the end of the line) -> put "
     "the "
     "value in quotes: start = \"2026-06-14 08:05\""},
    {"from = WSW\n",
     "f:1:8: is not valid TOML (value: this is no number, date, list or text in quotes) "
     "-> "
     "put the value in quotes: from = \"WSW\""},
    {"day = 2026-13-01\n",
     "f:1:14: is not valid TOML (date: expected month between 1 and 12 (inclusive), "
     "found 13) "
     "-> check the date or the time"},
    {"n = 99999999999999999999999\n",
     "f:1:28: is not valid TOML (decimal integer: '99999999999999999999999' is not "
     "representable in 64 bits) -> write a smaller number"},
    {"mass = \"70 kg\n",
     "f:1:14: is not valid TOML (a text is not closed on its line) -> close the quotes "
     "that "
     "open on this line"},
    {"mass = '70 kg\n",
     "f:1:14: is not valid TOML (a text is not closed on its line) -> close the quotes "
     "that "
     "open on this line"},
    {"m = \u201C70 kg\u201D\n",
     "f:1:5: is not valid TOML (value: this is no number, date, list or text in quotes) "
     "-> "
     "use straight quotes (\") in place of curly ones"},
    {"crr = 0,5\n",
     "f:1:8: is not valid TOML (key-value pair: expected a comment or whitespace, found "
     "',') "
     "-> write a decimal point: crr = 0.5"},
    {"crr = .0045\n",
     "f:1:7: is not valid TOML (floating-point: expected decimal digit, found '.') -> "
     "write a "
     "zero before the point: crr = 0.0045"},
    {"mass: \"70 kg\"\n",
     "f:1:5: is not valid TOML (key-value pair: expected '=', found ':') -> write = "
     "between "
     "key and value: mass = \"70 kg\""},
    {"mass\n",
     "f:1:5: is not valid TOML (key-value pair: expected '=', found the end of the line) "
     "-> "
     "write the line as key = value"},
    {"mass =\n",
     "f:1:7: is not valid TOML (key-value pair: expected value, found the end of the "
     "line) -> "
     "write a value after the sign: mass = \"...\""},
    {"rider mass = 3\n",
     "f:1:7: is not valid TOML (key-value pair: expected '=', found 'm') -> use letters, "
     "digits, - and _ in a key, or quotes: \"rider mass\" = ..."},
    {"\u00E9t\u00E9 = 1\n",
     "f:1:1: is not valid TOML (root table: expected keys, tables, whitespace or "
     "comments, "
     "found '\u00E9') -> use letters, digits, - and _ in a key, or quotes: "
     "\"\u00E9t\u00E9\" "
     "= ..."},
    {"path = \"C:\\q\"\n",
     "f:1:12: is not valid TOML (string: unknown escape sequence '\\q') -> write / in "
     "paths, "
     "or put the text in single quotes"},
    {"rider = { a = 1,\n b = 2 }\n",
     "f:1:17: is not valid TOML (inline table: expected key or closing '}', found the "
     "end of "
     "the line) -> write everything between { and } on one line, with a comma between "
     "entries"},
    {"kit = [1, 2\n",
     "f:1:13: is not valid TOML (array: the file ends too early) -> close the quote, "
     "bracket "
     "or brace that is still open"},
    {"[rider\nmass = 1\n",
     "f:1:7: is not valid TOML (table header: expected ']', found the end of the line) "
     "-> "
     "write a table as [name] and a list element as [[name]]"},
    {"a = 1\n\n[[\n",
     "f:3:1: is not valid TOML (a table name is broken) -> write a table as [name] and a "
     "list "
     "element as [[name]]"},
    {"mass = 1\npower = 2\n  mass = 3\n",
     "f:3:3: mass is set twice -> keep one of the two"},
    {"a.b = 1\na.b = 2\n", "f:2:1: a.b is set twice -> keep one of the two"},
    {"r = { m = 1, m = 2 }\n", "f:1:14: m is set twice -> keep one of the two"},
    {"[rider]\nx = 1\n[rider]\ny = 2\n",
     "f:3:2: rider is set twice -> put all its keys under one [rider], or write "
     "[[rider]] for "
     "elements of a list"},
    {"[setup]\n[[setup]]\n",
     "f:2:3: setup is a list here and something else above -> write [[setup]] each time"},
    {"a = 1\na.b = 2\n",
     "f:2:1: a key before the dot is no table (it is set above) -> keep one of the two"},
};

}  // namespace

TEST_CASE("each slip in a TOML file gets its own advice") {
    for (const Slip& slip : kSlips) {
        CAPTURE(slip.text);
        base::ProblemList problems;
        read_toml_text(slip.text, "f", problems);
        CHECK(format_lines(problems) == std::vector<std::string>{slip.message});
    }
}

TEST_CASE("nesting without end is refused, not followed") {
    base::ProblemList problems;
    read_toml_text("a = " + std::string(100'000, '['), "f", problems);
    CHECK(problems.error_count() == 1);
}
