#include "input/text/number_text.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <system_error>

#include "input/text/text_file.h"

namespace flattail::input {

namespace {

constexpr std::string_view kMinusSign = "\u2212";  // typeset minus, as pasted from a page

// Digits with one comma: the comma becomes a point, and three digits behind it stay
// doubtful.
Refusal refuse_comma(std::string_view text, std::size_t comma) {
    std::size_t end = comma + 1;
    while (end < text.size() && is_digit(text[end])) ++end;
    const std::string_view before = text.substr(0, comma);
    const std::string_view after = text.substr(comma + 1, end - comma - 1);
    std::string hint = fmt::format("write {}.{} with a decimal point", before, after);
    if (after.size() == 3) hint += fmt::format(", or {}{} for thousands", before, after);
    return {fmt::format("\"{}\" has a comma inside the number", text), hint, ""};
}

Refusal refuse_start(std::string_view text) {
    const std::string lower = to_lower(text);
    if (lower.starts_with("inf") || lower.starts_with("nan")) {
        return {fmt::format("\"{}\" is no finite number", text), "write a plain number",
                ""};
    }
    if (text.empty()) return {"is empty", "write a number", ""};
    return {fmt::format("\"{}\" does not start with a number", text),
            "write the number first, then its unit", ""};
}

// What stands behind the number must not carry it on.
std::optional<Refusal> refuse_rest(std::string_view text, std::string_view written,
                                   std::string_view tail) {
    if (tail.size() > 1 && tail[0] == ',' && is_digit(tail[1])) {
        return refuse_comma(text, text.size() - tail.size());
    }
    if (tail.size() > 1 && tail[0] == '.' && is_digit(tail[1])) {
        return Refusal{fmt::format("\"{}\" has two decimal points", text),
                       "write the number with one decimal point", ""};
    }
    const std::string_view rest = trim(tail);
    if (!rest.empty() && is_digit(rest[0])) {
        return Refusal{fmt::format("\"{}\" has a blank inside the number", text),
                       fmt::format("write {}{} if it is one number", written, rest), ""};
    }
    return std::nullopt;
}

}  // namespace

bool is_digit(char c) { return c >= '0' && c <= '9'; }

Parsed<LeadingNumber> split_number(std::string_view text) {
    text = trim(text);
    std::string_view digits = text;
    double sign = 1;
    if (digits.starts_with('+')) digits.remove_prefix(1);
    if (digits.starts_with('-')) {
        sign = -1;
        digits.remove_prefix(1);
    } else if (digits.starts_with(kMinusSign)) {
        sign = -1;
        digits.remove_prefix(kMinusSign.size());
    }
    const bool starts = !digits.empty() &&
                        (is_digit(digits[0]) ||
                         (digits[0] == '.' && digits.size() > 1 && is_digit(digits[1])));
    if (!starts) return refuse_start(text);
    LeadingNumber number;
    const char* end = digits.data() + digits.size();
    const auto [stop, error] = std::from_chars(digits.data(), end, number.value);
    if (error != std::errc()) {
        return Refusal{fmt::format("\"{}\" is too large or too small a number", text),
                       "check the exponent", ""};
    }
    number.value *= sign;
    const std::string_view tail(stop, static_cast<std::size_t>(end - stop));
    number.written = text.substr(0, text.size() - tail.size());
    number.rest = trim(tail);
    if (auto refusal = refuse_rest(text, number.written, tail)) return *refusal;
    return number;
}

bool looks_like_range(std::string_view rest) {
    for (const std::string_view mark :
         {"-", "\u2013", "\u2014", "..", "to ", "+-", "+/-", "\u00B1", "~"}) {
        const std::size_t at = rest.find(mark);
        if (at == std::string_view::npos) continue;
        const std::string_view after = trim(rest.substr(at + mark.size()));
        if (!after.empty() && (is_digit(after[0]) || after[0] == '.')) return true;
    }
    return false;
}

Refusal refuse_range(std::string_view text, std::string_view example) {
    return {fmt::format("\"{}\" is more than one value", text),
            fmt::format(
                "write one value such as \"{}\", or {{ low = \"...\", high = \"...\" }} "
                "for a range",
                example),
            ""};
}

Parsed<double> parse_number(std::string_view text) {
    const Parsed<LeadingNumber> number = split_number(text);
    if (!number) return number.refusal();
    if (number->rest.empty()) return number->value;
    return Refusal{fmt::format("\"{}\" is more than a number", trim(text)),
                   fmt::format("write {} alone", number->written), ""};
}

}  // namespace flattail::input
