#include "input/units/rate.h"

#include <fmt/format.h>

#include <string>
#include <utility>

#include "base/expects.h"
#include "input/text/number_text.h"
#include "input/text/text_file.h"

namespace flattail::input {

namespace {

struct RateParts {
    Dimension amount;
    Dimension base;
};

RateParts find_parts(Dimension dimension) {
    switch (dimension) {
        case Dimension::kRatioPerTime:
            return {Dimension::kRatio, Dimension::kTime};
        case Dimension::kPressurePerTime:
            return {Dimension::kPressure, Dimension::kTime};
        default:
            FLATTAIL_EXPECTS(dimension == Dimension::kRatePerDistance);
            break;
    }
    return {Dimension::kNumber, Dimension::kLength};
}

// "3 flats" counts like "3".
std::string_view drop_counted_word(std::string_view amount) {
    for (const std::string_view word : {"flats", "flat", "punctures", "puncture"}) {
        if (amount.ends_with(word))
            return trim(amount.substr(0, amount.size() - word.size()));
    }
    return amount;
}

Refusal refuse_form(std::string_view text, Dimension dimension) {
    return {fmt::format("\"{}\" is not {}", text, describe_dimension(dimension)),
            fmt::format("write it like \"{}\"", show_example(dimension)), ""};
}

// A side's own example would lead to half a rate.
Refusal widen(Refusal refusal, Dimension dimension) {
    if (refusal.example.empty()) return refusal;
    return {std::move(refusal.what),
            fmt::format("write it like \"{}\"", show_example(dimension)), ""};
}

}  // namespace

std::optional<SplitRate> split_rate(std::string_view text) {
    for (const std::string_view mark : {" per ", " every ", " in ", "/"}) {
        const std::size_t at = text.find(mark);
        if (at == std::string_view::npos) continue;
        const SplitRate parts{trim(text.substr(0, at)),
                              trim(text.substr(at + mark.size()))};
        if (!parts.amount.empty() && !parts.base.empty()) return parts;
    }
    return std::nullopt;
}

Parsed<double> parse_rate(std::string_view text, Dimension dimension) {
    const std::optional<SplitRate> sides = split_rate(text);
    if (!sides) return refuse_form(text, dimension);
    const RateParts parts = find_parts(dimension);
    const Parsed<double> amount =
        parse_quantity(drop_counted_word(sides->amount), parts.amount);
    if (!amount) return widen(amount.refusal(), dimension);
    const bool counted = is_digit(sides->base[0]) || sides->base[0] == '.';
    const Parsed<double> base =
        parse_quantity((counted ? "" : "1 ") + std::string(sides->base), parts.base);
    if (!base) return widen(base.refusal(), dimension);
    if (*base > 0) return *amount / *base;
    return Refusal{fmt::format("\"{}\" divides by nothing", text),
                   fmt::format("write it like \"{}\"", show_example(dimension)), ""};
}

}  // namespace flattail::input
