#include "input/units/quantity.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "input/text/number_text.h"
#include "input/text/text_file.h"
#include "input/units/duration.h"
#include "input/units/rate.h"
#include "input/units/unit_table.h"

namespace flattail::input {

namespace {

struct DimensionWords {
    std::string_view name;
    std::string_view example;
};

DimensionWords find_words(Dimension dimension) {
    switch (dimension) {
        case Dimension::kMass:
            return {"a mass", "70 kg"};
        case Dimension::kLength:
            return {"a length", "90 km"};
        case Dimension::kTime:
            return {"a duration", "8 min 30 s"};
        case Dimension::kSpeed:
            return {"a speed", "13 km/h"};
        case Dimension::kPower:
            return {"a power", "200 W"};
        case Dimension::kPressure:
            return {"a pressure", "70 psi"};
        case Dimension::kTemperature:
            return {"a temperature", "16 C"};
        case Dimension::kTemperatureDifference:
            return {"a temperature difference", "3 K"};
        case Dimension::kDirection:
            return {"a direction", "WSW"};
        case Dimension::kAngle:
            return {"an angle", "25 deg"};
        case Dimension::kArea:
            return {"an area", "0.27 m2"};
        case Dimension::kVolume:
            return {"a volume", "60 ml"};
        case Dimension::kAcceleration:
            return {"an acceleration", "4 m/s2"};
        case Dimension::kInertia:
            return {"a moment of inertia", "0.08 kg m2"};
        case Dimension::kNumber:
            return {"a number", "0.8"};
        case Dimension::kRatio:
            return {"a share", "5 %"};
        case Dimension::kProbability:
            return {"a probability", "5 %"};
        case Dimension::kRatePerDistance:
            return {"a rate", "1 per 3000 km"};
        case Dimension::kRatioPerTime:
            return {"a share per time", "2 % per h"};
        case Dimension::kPressurePerTime:
            break;
    }
    return {"a pressure loss per time", "5 psi per 10 h"};
}

bool is_rate(Dimension dimension) {
    return dimension == Dimension::kRatePerDistance ||
           dimension == Dimension::kRatioPerTime ||
           dimension == Dimension::kPressurePerTime;
}

Refusal refuse_missing_unit(std::string_view written, Dimension dimension) {
    const std::string spellings = list_spellings(dimension);
    const std::string_view usual = suggest_unit(dimension);
    const std::string others =
        spellings.size() == usual.size() ? std::string() : "with its unit: " + spellings;
    return {fmt::format("\"{}\" has no unit ({} needs one)", written,
                        describe_dimension(dimension)),
            others, fmt::format("{} {}", written, usual)};
}

Refusal refuse_unit(std::string_view text, const LeadingNumber& number,
                    Dimension dimension) {
    const std::string_view unit = number.rest;
    if (looks_like_range(unit)) return refuse_range(text, show_example(dimension));
    const std::string_view wanted = describe_dimension(dimension);
    if (const std::string_view right = correct_unit(unit, dimension); !right.empty()) {
        return {fmt::format("\"{}\" is no known unit", unit), "",
                fmt::format("{} {}", number.written, right)};
    }
    const std::string hint =
        fmt::format("write {} in {}, such as \"{}\"", wanted, list_spellings(dimension),
                    show_example(dimension));
    if (const std::optional<Dimension> other = find_unit(unit)) {
        return {fmt::format("\"{}\" is {} ({} is wanted)", text,
                            describe_dimension(*other), wanted),
                hint, ""};
    }
    return {fmt::format("\"{}\" is no known unit", unit), hint, ""};
}

Parsed<double> parse_plain(std::string_view text, Dimension dimension) {
    const Parsed<LeadingNumber> number = split_number(text);
    if (!number) return number.refusal();
    if (number->rest.empty()) return refuse_missing_unit(number->written, dimension);
    const Unit* unit = find_unit_of(number->rest, dimension);
    if (unit == nullptr) return refuse_unit(text, *number, dimension);
    const double value = (number->value + unit->offset) * unit->factor;
    if (dimension == Dimension::kTemperature && value < 0) {
        return Refusal{fmt::format("\"{}\" is below absolute zero", text),
                       "check sign and unit", ""};
    }
    return value;
}

// 0 is north, 1 is north-north-east, clockwise in 16 steps; nothing for other words.
std::optional<int> find_compass_point(std::string_view word) {
    constexpr std::string_view kPoints[] = {"n",  "nne", "ne", "ene", "e",  "ese",
                                            "se", "sse", "s",  "ssw", "sw", "wsw",
                                            "w",  "wnw", "nw", "nnw"};
    const std::string lower = to_lower(word);
    for (int i = 0; i < 16; ++i) {
        if (kPoints[i] == lower) return i;
    }
    return std::nullopt;
}

Parsed<double> parse_direction(std::string_view text) {
    if (const std::optional<int> point = find_compass_point(text)) {
        return *point * std::numbers::pi / 8;
    }
    if (text.empty() || (!is_digit(text[0]) && text[0] != '.')) {
        return Refusal{
            fmt::format("\"{}\" is no direction", text),
            "write a compass word such as \"WSW\", or degrees from 0 to 360 such "
            "as \"247 deg\"",
            ""};
    }
    const Parsed<double> angle_rad = parse_plain(text, Dimension::kDirection);
    if (!angle_rad) return angle_rad.refusal();
    constexpr double kTurn_rad = 2 * std::numbers::pi;
    if (*angle_rad > kTurn_rad) {
        return Refusal{fmt::format("\"{}\" is more than a full turn", text),
                       "write degrees from 0 to 360, clockwise from north", ""};
    }
    return *angle_rad == kTurn_rad ? 0.0 : *angle_rad;
}

Parsed<double> check_probability(double value, std::string_view text) {
    if (value >= 0 && value <= 1) return value;
    const std::string hint =
        "write a share between 0 % and 100 %, such as \"5 %\" or \"1 in 20\"";
    return Refusal{fmt::format("\"{}\" is no probability (it is {})", text,
                               value < 0 ? "below 0" : "above 1"),
                   hint, ""};
}

// ".05", "5 %", "1 in 20" or "1/20".
Parsed<double> parse_share(std::string_view text) {
    if (const std::optional<SplitRate> parts = split_rate(text)) {
        const Parsed<double> part = parse_number(parts->amount);
        if (!part) return part.refusal();
        const Parsed<double> whole = parse_number(parts->base);
        if (!whole) return whole.refusal();
        if (*whole > 0) return *part / *whole;
        return Refusal{fmt::format("\"{}\" divides by {}", text, parts->base),
                       "write a number above 0 there, such as \"1 in 20\"", ""};
    }
    const Parsed<LeadingNumber> number = split_number(text);
    if (!number) return number.refusal();
    if (number->rest.empty()) return number->value;
    const Unit* unit = find_unit_of(number->rest, Dimension::kRatio);
    if (unit == nullptr) return refuse_unit(text, *number, Dimension::kRatio);
    return number->value * unit->factor;
}

Parsed<double> parse_bare(std::string_view text) {
    const Parsed<LeadingNumber> number = split_number(text);
    if (!number) return number.refusal();
    if (number->rest.empty()) return number->value;
    if (looks_like_range(number->rest))
        return refuse_range(text, show_example(Dimension::kNumber));
    return Refusal{fmt::format("\"{}\" has a unit (a plain number is wanted)", text),
                   fmt::format("write {}", number->written), ""};
}

}  // namespace

std::string_view describe_dimension(Dimension dimension) {
    return find_words(dimension).name;
}

std::string_view show_example(Dimension dimension) {
    return find_words(dimension).example;
}

Parsed<double> parse_quantity(std::string_view text, Dimension dimension) {
    text = trim(text);
    if (text.empty()) {
        return Refusal{
            fmt::format("is empty ({} is wanted)", describe_dimension(dimension)),
            "for instance", std::string(show_example(dimension))};
    }
    if (is_rate(dimension)) return parse_rate(text, dimension);
    switch (dimension) {
        case Dimension::kTime:
            return parse_duration(text);
        case Dimension::kDirection:
            return parse_direction(text);
        case Dimension::kNumber:
            return parse_bare(text);
        case Dimension::kRatio:
            return parse_share(text);
        case Dimension::kProbability: {
            const Parsed<double> share = parse_share(text);
            return share ? check_probability(*share, text) : share;
        }
        default:
            return parse_plain(text, dimension);
    }
}

Parsed<double> parse_quantity_in(std::string_view text, std::string_view unit,
                                 Dimension dimension) {
    return parse_quantity(fmt::format("{} {}", trim(text), unit), dimension);
}

Parsed<double> accept_bare_number(double number, std::string_view written,
                                  Dimension dimension) {
    if (!std::isfinite(number)) {
        return Refusal{fmt::format("{} is no finite number", written), "for instance",
                       std::string(show_example(dimension))};
    }
    switch (dimension) {
        case Dimension::kNumber:
        case Dimension::kRatio:
            return number;
        case Dimension::kProbability:
            return check_probability(number, written);
        case Dimension::kDirection:
            return refuse_missing_unit(written, Dimension::kAngle);
        default:
            break;
    }
    if (is_rate(dimension)) return parse_rate(written, dimension);
    return refuse_missing_unit(written, dimension);
}

}  // namespace flattail::input
