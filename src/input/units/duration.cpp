#include "input/units/duration.h"

#include <fmt/format.h>

#include <vector>

#include "input/text/number_text.h"
#include "input/text/text_file.h"
#include "input/units/quantity.h"
#include "input/units/unit_table.h"

namespace flattail::input {

namespace {

constexpr const char* kHowTo =
    "write hours:minutes:seconds as in \"2:35:00\", or \"8 min 30 s\"";

Refusal refuse(std::string_view text, std::string_view why) {
    return {fmt::format("\"{}\" {}", text, why), kHowTo, ""};
}

std::vector<std::string_view> split_at_colons(std::string_view text) {
    std::vector<std::string_view> parts;
    while (true) {
        const std::size_t colon = text.find(':');
        parts.push_back(text.substr(0, colon));
        if (colon == std::string_view::npos) return parts;
        text.remove_prefix(colon + 1);
    }
}

bool is_digits(std::string_view text) {
    return !text.empty() &&
           text.find_first_not_of("0123456789") == std::string_view::npos;
}

Refusal refuse_two_parts(std::string_view text,
                         const std::vector<std::string_view>& parts) {
    if (!is_digits(parts[0]) || !is_digits(parts[1]))
        return refuse(text, "is no duration");
    return {
        fmt::format("\"{0}\" can mean {1} h {2} min or {1} min {2} s", text, parts[0],
                    parts[1]),
        fmt::format("write \"{0}:00\" or \"0:{1:0>2}:{2}\"", text, parts[0], parts[1]),
        ""};
}

// h:mm:ss, the seconds with a fraction if need be.
Parsed<double> parse_colons(std::string_view text) {
    const std::vector<std::string_view> parts = split_at_colons(text);
    if (parts.size() == 2) return refuse_two_parts(text, parts);
    if (parts.size() != 3) return refuse(text, "has too many colons");
    const std::string_view whole_seconds = parts[2].substr(0, parts[2].find('.'));
    const bool shape = is_digits(parts[0]) && is_digits(parts[1]) &&
                       parts[1].size() == 2 && is_digits(whole_seconds) &&
                       whole_seconds.size() == 2;
    if (!shape) return refuse(text, "is no duration");
    const Parsed<double> hours = parse_number(parts[0]);
    const Parsed<double> minutes = parse_number(parts[1]);
    const Parsed<double> seconds = parse_number(parts[2]);
    if (!hours) return hours.refusal();
    if (!seconds) return seconds.refusal();
    if (*minutes >= 60 || *seconds >= 60) {
        return refuse(text, "has 60 or more minutes or seconds");
    }
    return *hours * 3600 + *minutes * 60 + *seconds;
}

// Where the next number of "8 min 30 s" starts.
std::size_t find_next_number(std::string_view rest) {
    for (std::size_t i = 0; i < rest.size(); ++i) {
        if (is_digit(rest[i])) return i;
    }
    return rest.size();
}

// A number without a unit takes the next one down: "8 min 30" means seconds at the end.
Refusal refuse_missing_unit(std::string_view text, std::string_view written,
                            double last_factor) {
    const std::string_view unit = last_factor > 0 && last_factor <= 60 ? "s" : "min";
    return {fmt::format("\"{}\" has no unit (a duration needs one)", written),
            fmt::format("with its unit: {}, or as hours:minutes:seconds",
                        list_spellings(Dimension::kTime)),
            fmt::format("{} {}", text, unit)};
}

Refusal refuse_time_unit(std::string_view text, std::string_view written,
                         std::string_view unit) {
    if (const std::string_view right = correct_unit(unit, Dimension::kTime);
        !right.empty()) {
        return {fmt::format("\"{}\" is no unit of time", unit), "",
                fmt::format("{} {}", written, right)};
    }
    if (const auto other = find_unit(unit)) {
        return {fmt::format("\"{}\" is {} (a duration is wanted)", text,
                            describe_dimension(*other)),
                kHowTo, ""};
    }
    return refuse(unit, "is no unit of time");
}

// "8 min 30 s": numbers with falling units.
Parsed<double> parse_units(std::string_view text) {
    double total_s = 0;
    double last_factor = 0;
    std::string_view rest = text;
    while (!rest.empty()) {
        const std::size_t digits = find_next_number(rest);
        const std::size_t unit_end = rest.find_first_not_of("0123456789.,eE+- ", digits);
        const std::size_t next = unit_end == std::string_view::npos
                                     ? rest.size()
                                     : unit_end + find_next_number(rest.substr(unit_end));
        const Parsed<LeadingNumber> number = split_number(rest.substr(0, next));
        if (!number) return number.refusal();
        const std::string_view name = number->rest;
        if (name.empty()) return refuse_missing_unit(text, number->written, last_factor);
        const Unit* unit = find_unit_of(name, Dimension::kTime);
        if (unit == nullptr) return refuse_time_unit(text, number->written, name);
        if (last_factor > 0 && unit->factor >= last_factor) {
            return refuse(text, "does not go from larger to smaller units");
        }
        if (last_factor > 0 && number->value < 0)
            return refuse(text, "has a sign inside");
        total_s += (total_s < 0 ? -1 : 1) * number->value * unit->factor;
        last_factor = unit->factor;
        rest = trim(rest.substr(next));
    }
    return total_s;
}

}  // namespace

Parsed<double> parse_duration(std::string_view text) {
    text = trim(text);
    if (text.find(':') != std::string_view::npos) return parse_colons(text);
    if (text.empty()) return refuse(text, "is empty");
    if (looks_like_range(text.substr(1))) {
        return refuse_range(text, show_example(Dimension::kTime));
    }
    return parse_units(text);
}

}  // namespace flattail::input
