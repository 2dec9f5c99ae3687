// How the wheels are made ready: when, how warm, with which gas and whose gauge.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "input/toml/node_values.h"
#include "scenario/tables/read_tables.h"
#include "scenario/values/defaults.h"

namespace flattail::scenario {

namespace {

using input::Dimension;
using input::Node;

constexpr double kDay_s = 86400.0;
// Pressures read longer ago than this are no preparation for a race (assumption).
constexpr double kLongestAgo_d = 14.0;

struct Gauge {
    const char* word;
    double within_psi;  // 9 in 10 readings; common practice
};
constexpr std::array<Gauge, 2> kGauges = {{{"own", 2.0}, {"stranger's", 5.0}}};

// The gauge by whose pump it is, under `pump` or `gauge`, or as a pressure.
struct GaugeStatement {
    const Node* node = nullptr;
    double within_psi = kGauges[0].within_psi;
};

GaugeStatement read_statement(Draft& draft, Table& preparation) {
    const Spec& spec = find_spec("preparation.gauge");
    GaugeStatement said;
    const Node* pump = preparation.find("pump");
    said.node = preparation.find("gauge");
    if (pump && said.node) {
        preparation.add_error(*pump,
                              "preparation.pump and preparation.gauge are both stated",
                              "keep one: the pump brings its gauge");
        return said;
    }
    if (pump) {
        said.node = pump;
        const auto word =
            match_word(*pump, "preparation.pump",
                       {kGauges[0].word, kGauges[1].word, "stranger"}, draft.problems);
        said.within_psi = kGauges[std::min<std::size_t>(word.value_or(0), 1)].within_psi;
    } else if (said.node && said.node->is(input::NodeKind::kString) &&
               !input::parse_quantity(said.node->text, Dimension::kPressure)) {
        const auto word = match_word(*said.node, spec.name,
                                     {kGauges[0].word, kGauges[1].word}, draft.problems);
        if (word) said.within_psi = kGauges[*word].within_psi;
    } else if (said.node) {
        const auto within_pa = read_value(*said.node, spec, draft.problems);
        said.within_psi = std::max(from_si(kPsi, within_pa.value_or(0.0)), 0.0);
    }
    return said;
}

void read_gauge(Draft& draft, Table& preparation) {
    const Spec& spec = find_spec("preparation.gauge");
    const GaugeStatement said = read_statement(draft, preparation);
    const double within_psi = said.within_psi;
    Input gauge =
        make_usual_input(within_psi > 0.0 ? with_usual(spec, Form::kNormalRange,
                                                       -within_psi, 0.0, within_psi)
                                          : with_usual(spec, 0.0));
    if (said.node) {
        gauge.origin = within_psi > 0.0 ? gauge.origin : Origin::kStated;
        gauge.place = said.node->place;
    }
    draft.model.preparation.gauge_error_pa = add_input(draft, std::move(gauge));
}

// Days from the day of pumping to the day of the race, when both are dated.
std::optional<int> count_days(const input::ClockTime& pumped, const std::string& race) {
    const auto raced = input::parse_date(race);
    if (!pumped.date || !raced) return std::nullopt;
    return input::count_days(*pumped.date, *raced);
}

// Without a date the last such time before the start is meant.
std::optional<double> read_pumped(Draft& draft, Table& preparation, const Node& node) {
    const auto clock = input::read_clock(node, draft.problems);
    if (!clock) return std::nullopt;
    const Race& race = draft.model.race;
    double before_s = race.start_clock_s - clock->second_of_day;
    if (!clock->date) return before_s >= 0.0 ? before_s : before_s + kDay_s;
    const auto days = count_days(*clock, race.date);
    if (!days) {
        preparation.add_error(node,
                              "preparation.pumped has a date, but bike_start has none",
                              "write bike_start = \"2026-06-14 08:05\", or pumped = "
                              "\"06:10\"");
        return std::nullopt;
    }
    before_s += *days * kDay_s;
    if (before_s < 0.0) {
        preparation.add_error(node, "preparation.pumped is after bike_start",
                              "write when the tyres are pumped before the race");
        return std::nullopt;
    }
    return before_s;
}

std::optional<double> read_before(Draft& draft, Table& preparation) {
    static const Spec kBefore{"preparation.before",
                              "",
                              Dimension::kTime,
                              kHour,
                              Scale::kPositive,
                              Layer::kKnowledge,
                              0.0,
                              24.0 * kLongestAgo_d,
                              "write how long before the start, like \"2 h\""};
    const Node* pumped = preparation.find("pumped");
    const Node* before = preparation.find("before");
    if (pumped && before) {
        preparation.add_error(*before,
                              "preparation.pumped and preparation.before are both stated",
                              "keep one of them");
        return std::nullopt;
    }
    if (before) return preparation.find_value(kBefore);
    if (!pumped) return std::nullopt;
    const auto before_s = read_pumped(draft, preparation, *pumped);
    Spec ago = kBefore;
    ago.name = "preparation.pumped before the start";
    ago.advice = "write the last time that the tyres are pumped";
    if (!before_s || !check_limits(*before_s, ago, pumped->place, draft.problems)) {
        return std::nullopt;
    }
    return before_s;
}

void read_place(Draft& draft, Table& preparation) {
    static const Spec kAt{"preparation.at",
                          "",
                          Dimension::kTemperature,
                          kCelsius,
                          Scale::kSigned,
                          Layer::kKnowledge,
                          -20.0,
                          45.0,
                          "write how warm air and wheels are then, like \"16 C\""};
    Preparation& model = draft.model.preparation;
    const Node* at = preparation.find("at");
    model.pumped_at_k = preparation.find_value(kAt);
    if (at && !preparation.find("pumped") && !preparation.find("before")) {
        preparation.add_error(
            *at, "preparation.at is stated, but not when the tyres are pumped",
            "write pumped = \"06:10\" or before = \"2 h\" beside it");
    }
}

}  // namespace

void read_preparation(Draft& draft, Table& preparation) {
    Preparation& model = draft.model.preparation;
    read_gauge(draft, preparation);
    const auto before_s = read_before(draft, preparation);
    model.before_s = before_s.value_or(0.0);
    read_place(draft, preparation);
    static const Words kGases = {"air", "CO2"};
    if (const auto gas = preparation.find_word("gas", kGases)) {
        model.gas = *gas == 0 ? FillGas::kAir : FillGas::kCarbonDioxide;
    }
    if (!preparation.find("pumped") && !preparation.find("before")) {
        note_choice(draft, "preparation.pumped", "pressures hold", "at the start",
                    Origin::kAssumption, "assumption; write when the tyres are pumped");
    }
}

}  // namespace flattail::scenario
