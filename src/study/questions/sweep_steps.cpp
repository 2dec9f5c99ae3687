#include "study/questions/sweep_steps.h"

#include <fmt/format.h>

#include <charconv>

#include "flattail/problem.h"
#include "input/text/number_text.h"
#include "input/text/text_file.h"

namespace flattail::study {

namespace {

constexpr int kUsualSteps = 5;
// A study per step: more would be an hour's wait, most likely by mistake.
constexpr int kMostSteps = 200;
constexpr const char* kHowTo = "write --over \"rider.power=150 W..250 W:5\"";

[[noreturn]] void refuse(std::string what, std::string hint = kHowTo) {
    throw InvalidInput({{{kOverPlace, 0, 0}, std::move(what), std::move(hint)}});
}

// The first = outside quotes: names of setups may hold one.
std::size_t find_equals(const std::string& text) {
    char quote = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quote != 0) {
            if (c == quote) quote = 0;
        } else if (c == '"' || c == '\'') {
            quote = c;
        } else if (c == '=') {
            return i;
        }
    }
    return std::string::npos;
}

struct Written {
    std::string key, from, to, steps;
};

std::string trimmed(const std::string& text) { return std::string(input::trim(text)); }

Written split(const std::string& over) {
    const std::size_t equals = find_equals(over);
    if (equals == std::string::npos) {
        refuse(fmt::format("{} is not KEY=FROM..TO", over));
    }
    Written w;
    w.key = trimmed(over.substr(0, equals));
    const std::string range = over.substr(equals + 1);
    if (w.key.empty()) refuse("no key stands before the =");
    const std::size_t dots = range.find("..");
    if (dots == std::string::npos) {
        refuse(
            fmt::format("{}: {} is one value, not a range", w.key,
                        trimmed(range).empty() ? "nothing" : trimmed(range)),
            fmt::format("write --over \"{}=FROM..TO\", or --set for one value", w.key));
    }
    w.from = trimmed(range.substr(0, dots));
    const std::string rest = range.substr(dots + 2);
    const std::size_t colon = rest.rfind(':');
    w.to = trimmed(rest.substr(0, colon));
    if (colon == std::string::npos) return w;
    w.steps = trimmed(rest.substr(colon + 1));
    if (w.steps.empty()) refuse(fmt::format("{}: no steps stand behind the :", w.key));
    if (w.to.find(':') != std::string::npos || w.from.find(':') != std::string::npos) {
        refuse(fmt::format("{}: a clock cannot be swept", w.key),
               "write times with units, like \"8 min..14 min\"");
    }
    return w;
}

int read_steps(const Written& w) {
    if (w.steps.empty()) return kUsualSteps;
    int steps = 0;
    const char* end = w.steps.data() + w.steps.size();
    const auto [stop, error] = std::from_chars(w.steps.data(), end, steps);
    if (error != std::errc{} || stop != end || steps < 2 || steps > kMostSteps) {
        refuse(fmt::format("{}: '{}' is no number of steps from 2 to {}", w.key, w.steps,
                           kMostSteps));
    }
    return steps;
}

struct End {
    double number = 0.0;
    std::string unit;
};

End read_end(const std::string& key, const std::string& text) {
    const auto number = input::split_number(text);
    if (!number) {
        const std::string shown = text.empty() ? "nothing" : fmt::format("'{}'", text);
        refuse(fmt::format("{}: {} is no number with a unit", key, shown));
    }
    return {number->value, std::string(number->rest)};
}

// Twelve digits drop what halving a decimal leaves behind.
std::string write_number(double number) { return fmt::format("{:.12g}", number); }

double read_back(const std::string& number) {
    double value = 0.0;
    std::from_chars(number.data(), number.data() + number.size(), value);
    return value;
}

}  // namespace

SweepSteps read_sweep(const std::string& over) {
    const Written w = split(over);
    const int count = read_steps(w);
    const End from = read_end(w.key, w.from), to = read_end(w.key, w.to);
    if (!from.unit.empty() && !to.unit.empty() && from.unit != to.unit) {
        refuse(fmt::format("{}: from {} to {} changes the unit", w.key, w.from, w.to),
               "write both ends in one unit");
    }
    if (from.number == to.number) {
        refuse(fmt::format("{}: from {} to {} is no way to go", w.key, w.from, w.to));
    }
    SweepSteps sweep{w.key, to.unit.empty() ? from.unit : to.unit, {}};
    for (int i = 0; i < count; ++i) {
        const double share = i / static_cast<double>(count - 1);
        const std::string number =
            write_number(from.number * (1.0 - share) + to.number * share);
        const std::string gap = sweep.unit.empty() || sweep.unit == "%" ? "" : " ";
        sweep.steps.push_back({number + gap + sweep.unit, read_back(number)});
    }
    return sweep;
}

}  // namespace flattail::study
