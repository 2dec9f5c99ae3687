#include "publish/pages/text.h"

#include <rapidcheck/catch.h>
#include <wchar.h>

#include <clocale>

#include "support/catch.h"

using namespace flattail::publish;

namespace {

std::string encode(char32_t code) {
    std::string text;
    if (code < 0x80) return std::string(1, static_cast<char>(code));
    if (code < 0x800) {
        text += static_cast<char>(0xC0u | (code >> 6));
    } else if (code < 0x10000) {
        text += static_cast<char>(0xE0u | (code >> 12));
        text += static_cast<char>(0x80u | ((code >> 6) & 0x3Fu));
    } else {
        text += static_cast<char>(0xF0u | (code >> 18));
        text += static_cast<char>(0x80u | ((code >> 12) & 0x3Fu));
        text += static_cast<char>(0x80u | ((code >> 6) & 0x3Fu));
    }
    return text + static_cast<char>(0x80u | (code & 0x3Fu));
}

struct Range {
    char32_t first, last;
};

}  // namespace

TEST_CASE("widths agree with the C library's") {
    const std::string before = std::setlocale(LC_CTYPE, nullptr);
    if (std::setlocale(LC_CTYPE, "C.UTF-8") == nullptr) {
        WARN("no UTF-8 locale here: widths were not compared");
        return;
    }
    // Latin, Greek, Cyrillic, combining marks, kana, Han, Hangul, full-width forms.
    for (const Range& range :
         {Range{0x20, 0x7E}, Range{0xAE, 0x2FF}, Range{0x300, 0x36F}, Range{0x3A3, 0x3C9},
          Range{0x410, 0x44F}, Range{0x3041, 0x3096}, Range{0x4E00, 0x9FA5},
          Range{0xAC00, 0xD7A3}, Range{0xFF01, 0xFF60}, Range{0x2581, 0x2588}}) {
        int wrong = 0;
        for (char32_t code = range.first; code <= range.last; ++code) {
            if (measure_width(encode(code)) != wcwidth(static_cast<wchar_t>(code))) {
                ++wrong;
            }
        }
        CHECK(wrong == 0);
    }
    std::setlocale(LC_CTYPE, before.c_str());
}

TEST_CASE("control characters and broken UTF-8 never reach a terminal") {
    CHECK(clean_line("a\x1b[31mb") == "a?[31mb");
    CHECK(clean_line("two\nlines\tand") == "two lines and");
    CHECK(clean_line("\xC3") == "?");
    CHECK(clean_line("a\xFFz") == "a?z");
    CHECK(clean_line("\xC0\x80") == "??");       // too long for its value
    CHECK(clean_line("\xED\xA0\x80") == "???");  // half a surrogate pair
    CHECK(clean_line("\xE2\x80\xAEx") == "?x");  // turns the line round
    CHECK(clean_line("K\u00F6ln \u65E5") == "K\u00F6ln \u65E5");
}

TEST_CASE("shortened text keeps its width and its beginning") {
    CHECK(shorten_end("Latex", 5) == "Latex");
    CHECK(shorten_end("Latex tubes", 6) == "Latex\u2026");
    CHECK(shorten_middle("front butyl rear latex", 11) == "front\u2026latex");
    CHECK(measure_width(shorten_end("\u65E5\u672C\u8A9E\u306E", 6)) <= 6);
    CHECK(shorten_end(std::string(300, 'x'), 24).size() == 23 + 3);
}

TEST_CASE("any cleaned text fits after shortening, padding and wrapping") {
    rc::check("shorten, pad and wrap keep the width", [] {
        const std::string text = clean_line(*rc::gen::arbitrary<std::string>());
        const int width = *rc::gen::inRange(4, 60);
        RC_ASSERT(measure_width(shorten_end(text, width)) <= width);
        RC_ASSERT(measure_width(shorten_middle(text, width)) <= width);
        RC_ASSERT(measure_width(pad_end(shorten_end(text, width), width)) == width);
        for (const std::string& line : wrap(text, width)) {
            RC_ASSERT(measure_width(line) <= width);
        }
    });
}

TEST_CASE("names that differ still differ after shortening") {
    const auto by_end = shorten_names({"Butyl 28 mm", "Latex 28 mm"}, 7);
    CHECK(by_end[0] == "Butyl \u2026");
    CHECK(by_end[1] == "Latex \u2026");
    const auto by_middle =
        shorten_names({"tubes front and rear 28", "tubes front and rear 30"}, 10);
    CHECK(by_middle[0] != by_middle[1]);
    CHECK(by_middle[1].substr(by_middle[1].size() - 2) == "30");
    const std::string same(40, 'x');
    const auto by_number = shorten_names({same + "1" + same, same + "2" + same}, 12);
    CHECK(by_number[0] != by_number[1]);
    for (const std::string& name : by_number) CHECK(measure_width(name) <= 12);
}

TEST_CASE("wrapped lines break at blanks and hang under the first") {
    const auto lines = wrap("one two three", 10, "-- ");
    REQUIRE(lines.size() == 2);
    CHECK(lines[0] == "-- one two");
    CHECK(lines[1] == "   three");
    CHECK(wrap("", 10, "x ") == std::vector<std::string>{"x "});
}
