#include "input/toml/toml_advice.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <utility>

#include "input/text/text_file.h"

namespace flattail::input {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool has(std::string_view text, std::string_view piece) {
    return text.find(piece) != std::string_view::npos;
}

// "0,5": digits, one comma, digits.
bool is_comma_number(std::string_view text) {
    const std::size_t comma = text.find(',');
    if (comma == std::string_view::npos || comma == 0 || comma + 1 == text.size())
        return false;
    const auto digits = [](std::string_view part) {
        return std::all_of(part.begin(), part.end(), is_digit);
    };
    return digits(text.substr(0, comma)) && digits(text.substr(comma + 1));
}

// "0,27" before the end of an entry, outside quotes and lists.
std::string find_comma_number(std::string_view line) {
    if (has(line, "[")) return "";
    bool is_quoted = false;
    for (std::size_t i = 0; i + 2 < line.size(); ++i) {
        if (line[i] == '"') is_quoted = !is_quoted;
        if (is_quoted || !is_digit(line[i]) || line[i + 1] != ',') continue;
        std::size_t begin = i, end = i + 2;
        while (begin > 0 && is_digit(line[begin - 1])) --begin;
        while (end < line.size() && is_digit(line[end])) ++end;
        if (end > i + 2) return std::string(line.substr(begin, end - begin));
    }
    return "";
}

bool opens_without_closing(std::string_view text) {
    const char quote = text.front();
    return (quote == '"' || quote == '\'') &&
           std::count(text.begin(), text.end(), quote) % 2 != 0;
}

struct KeyAndValue {
    std::string_view key;
    std::string_view value;
};

KeyAndValue split_line(std::string_view line) {
    const std::size_t equals = line.find('=');
    if (equals == std::string_view::npos) return {trim(line), {}};
    std::string_view value = line.substr(equals + 1);
    if (!has(value, "\"")) value = value.substr(0, value.find('#'));
    return {trim(line.substr(0, equals)), trim(value)};
}

bool is_plain_key(std::string_view key) {
    return !key.empty() && std::all_of(key.begin(), key.end(), [](char c) {
        return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '-' ||
               c == '.';
    });
}

// Advice that follows from a line `key = value` alone; empty when it looks sound.
std::string suggest_value_fix(const KeyAndValue& pair) {
    const auto [key, value] = pair;
    if (value.empty())
        return fmt::format("write a value after the sign: {} = \"...\"", key);
    if (is_comma_number(value)) {
        std::string number(value);
        std::replace(number.begin(), number.end(), ',', '.');
        return fmt::format("write a decimal point: {} = {}", key, number);
    }
    const char first = value.front();
    if (first == '.' && value.size() > 1 && is_digit(value[1])) {
        return fmt::format("write a zero before the point: {} = 0{}", key, value);
    }
    if (opens_without_closing(value)) return "close the quotes that open on this line";
    if (first != '"' && first != '\'' && first != '[' && first != '{') {
        return fmt::format("put the value in quotes: {} = \"{}\"", key, value);
    }
    return "";
}

std::string suggest_key_fix(const KeyAndValue& pair, std::string_view line) {
    const std::size_t colon = pair.key.find(':');
    if (pair.value.empty() && colon != std::string_view::npos) {
        return fmt::format("write = between key and value: {} = {}",
                           trim(pair.key.substr(0, colon)),
                           trim(pair.key.substr(colon + 1)));
    }
    if (!has(line, "=")) return "write the line as key = value";
    if (!is_plain_key(pair.key) && !has(pair.key, "\"") && !has(pair.key, "[")) {
        return fmt::format(
            "use letters, digits, - and _ in a key, or quotes: \"{}\" = ...", pair.key);
    }
    return "";
}

}  // namespace

std::string explain_toml_complaint(std::string_view complaint) {
    constexpr std::string_view kPreamble = "Error while parsing ";
    if (complaint.starts_with(kPreamble)) complaint.remove_prefix(kPreamble.size());
    if (has(complaint, "control characters")) return "a text is not closed on its line";
    std::string words(complaint);
    constexpr std::pair<std::string_view, std::string_view> kPlainer[] = {
        {"saw '\\n'", "found the end of the line"},
        {"saw '\\r'", "found the end of the line"},
        {"saw ", "found "},
        {"encountered end-of-file", "the file ends too early"},
        {"could not determine value type",
         "this is no number, date, list or text in quotes"},
    };
    for (const auto& [piece, plain] : kPlainer) {
        const std::size_t at = words.find(piece);
        if (at != std::string::npos) words.replace(at, piece.size(), plain);
    }
    return words;
}

std::string suggest_toml_fix(std::string_view line, std::string_view complaint) {
    line = trim(line);
    if (has(line, "\u201C") || has(line, "\u201D") || has(line, "\u201E")) {
        return "use straight quotes (\") in place of curly ones";
    }
    if (has(complaint, "unknown escape")) {
        return "write / in paths, or put the text in single quotes";
    }
    if (has(complaint, "control characters")) {
        return "close the quotes that open on this line";
    }
    if (has(complaint, "inline table")) {
        return "write everything between { and } on one line, with a comma between "
               "entries";
    }
    if (has(complaint, "(inclusive)")) return "check the date or the time";
    if (has(complaint, "not representable")) return "write a smaller number";
    if (line.starts_with('['))
        return "write a table as [name] and a list element as [[name]]";
    const KeyAndValue pair = split_line(line);
    if (std::string fix = suggest_key_fix(pair, line); !fix.empty()) return fix;
    if (std::string fix = suggest_value_fix(pair); !fix.empty()) return fix;
    if (const std::string number = find_comma_number(line); !number.empty()) {
        return fmt::format("write a decimal point in place of the comma in {}", number);
    }
    if (has(complaint, "end-of-file") || has(complaint, "EOF")) {
        return "close the quote, bracket or brace that is still open";
    }
    return "write lines as key = value, with text and quantities in quotes";
}

}  // namespace flattail::input
