#include "evidence/flats/log_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "input/text/text_file.h"
#include "input/units/clock.h"

namespace flattail::evidence {

namespace {

struct Alias {
    const char* word;  // lower case
    const char* name;
};

// The words that scenarios know.
constexpr std::array<Alias, 9> kInners = {{{"butyl", "butyl"},
                                           {"standard butyl", "butyl"},
                                           {"light butyl", "light butyl"},
                                           {"light", "light butyl"},
                                           {"tpu", "TPU"},
                                           {"plastic", "TPU"},
                                           {"latex", "latex"},
                                           {"latex tube", "latex"},
                                           {"tubeless", "tubeless"}}};

struct TyreWord {
    const char* begins;
    physics::TyreKind kind;
};
constexpr std::array<TyreWord, 3> kTyres = {{{"race", physics::TyreKind::kRace},
                                             {"thin", physics::TyreKind::kThin},
                                             {"tough", physics::TyreKind::kTough}}};

// Two numbers and a year with dots between; nothing else around them.
std::optional<std::chrono::year_month_day> read_dotted(std::string_view text) {
    std::array<unsigned, 3> parts{};
    const char* at = text.data();
    const char* end = text.data() + text.size();
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0 && (at == end || *at++ != '.')) return std::nullopt;
        const auto [stop, error] = std::from_chars(at, end, parts[i]);
        if (error != std::errc{}) return std::nullopt;
        at = stop;
    }
    if (at != end || parts[2] < 1000 || parts[2] > 9999) return std::nullopt;
    const std::chrono::year_month_day day{std::chrono::year(static_cast<int>(parts[2])),
                                          std::chrono::month(parts[1]),
                                          std::chrono::day(parts[0])};
    return day.ok() ? std::optional(day) : std::nullopt;
}

}  // namespace

std::optional<std::chrono::year_month_day> read_day(std::string_view text) {
    if (const auto dotted = read_dotted(text)) return dotted;
    const auto day = input::parse_date(text);
    if (day) return *day;
    // A clock behind the day is how ride computers write it; only the day counts.
    const auto clock = input::parse_clock(text);
    return clock ? clock->date : std::nullopt;
}

std::string write_day(std::chrono::year_month_day day) {
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()),
                       static_cast<unsigned>(day.month()),
                       static_cast<unsigned>(day.day()));
}

std::string name_inner(const std::string& word) {
    const std::string lower = input::to_lower(word);
    for (const Alias& alias : kInners) {
        if (lower == alias.word) return alias.name;
    }
    return word;
}

bool is_known_inner(const std::string& name) {
    return std::any_of(kInners.begin(), kInners.end(),
                       [&](const Alias& alias) { return name == alias.name; });
}

std::optional<physics::TyreKind> find_tyre_kind(const std::string& words) {
    const std::string lower = input::to_lower(words);
    for (const TyreWord& tyre : kTyres) {
        if (lower.rfind(tyre.begins, 0) == 0) return tyre.kind;
    }
    return std::nullopt;
}

const char* name_tyre_kind(physics::TyreKind kind) {
    switch (kind) {
        case physics::TyreKind::kRace:
            return "race";
        case physics::TyreKind::kThin:
            return "thin time-trial";
        case physics::TyreKind::kTough:
            break;
    }
    return "tough";
}

std::optional<bool> read_wet(const std::string& word) {
    const std::string lower = input::to_lower(word);
    for (const char* yes : {"yes", "y", "wet", "true", "1"}) {
        if (lower == yes) return true;
    }
    for (const char* no : {"", "no", "n", "dry", "false", "0"}) {
        if (lower == no) return false;
    }
    return std::nullopt;
}

}  // namespace flattail::evidence
