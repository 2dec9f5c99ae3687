// The forecast, how far it may be off, and the air.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "chance/distribution.h"
#include "chance/make_distribution.h"
#include "input/toml/node_values.h"
#include "physics/air.h"
#include "scenario/tables/read_tables.h"
#include "scenario/values/defaults.h"
#include "scenario/values/move_distribution.h"

namespace flattail::scenario {

namespace {

using input::Node;

constexpr double kHalfTurn_rad = 3.14159265358979323846;

double find_middle(const Input& input) { return chance::quantile(input.knowledge, 0.5); }

Input name_error(Input input, const char* label, const Unit& unit) {
    input.label = std::string(label);
    input.unit = std::string(unit.name);
    input.unit_si = unit.si;
    input.unit_zero = unit.zero;
    return input;
}

// A factor that lies nine times in ten within a share of 1.
Distribution make_factor_error(double within) {
    if (within <= 0.0) return chance::make_point(1.0);
    return chance::make_split_lognormal({1.0 - within, 1.0, 1.0 + within});
}

// The stated spread of wind as a factor on the forecast, else the forecast's usual error.
void read_wind(Draft& draft, Table& weather, ForecastRow& row) {
    const Spec& spec = find_spec("weather.wind");
    Input wind = read_input(weather, spec);
    row.wind_m_s = find_middle(wind);
    if (!weather.find("wind")) note_default(draft, spec, row.wind_m_s);
    const bool spread =
        wind.deviation != Deviation::kNone || wind.knowledge.shape != Shape::kPoint;
    if (spread && row.wind_m_s > 0.0) {
        wind = scale_input(std::move(wind), 1.0 / row.wind_m_s);
        weather.find("wind_error");
    } else {
        const auto stated = weather.find_value(find_spec("weather.wind_error"));
        const double within =
            stated.value_or(to_si(kPercent, find_spec("weather.wind_error").usual.mid));
        StatedValue factor = make_stated_point(1.0);
        factor.luck = make_factor_error(within);
        factor.deviation = within > 0.0 ? Deviation::kMultiply : Deviation::kNone;
        wind = make_input(spec, factor);
        wind.origin = stated ? Origin::kStated : Origin::kAssumption;
        wind.source = stated ? "stated" : "assumption, evening before the race";
    }
    draft.model.weather.wind_factor =
        add_input(draft, name_error(std::move(wind), "wind / forecast", kNoUnit));
}

struct Direction {
    double from_rad = 0.0;
    std::optional<double> within_rad;  // half a turn: from anywhere
};

// "WSW", "250 deg" or { from, within }.
Direction read_direction(Draft& draft, Table& weather) {
    const Node* node = weather.find("from");
    if (!node) {
        note_choice(draft, "weather.from", "wind direction", "any", Origin::kAssumption,
                    "not stated, every direction is as likely");
        return {0.0, kHalfTurn_rad};
    }
    if (!node->is(input::NodeKind::kTable)) {
        return {input::read_quantity(*node, input::Dimension::kDirection, draft.problems)
                    .value_or(0.0),
                std::nullopt};
    }
    Table table(node, "weather.from", draft.problems);
    const Node* from = table.find("from");
    const Node* within = table.find("within");
    table.reject_unknown_keys();
    if (!from || !within) {
        draft.problems.add_error(node->place,
                                 "weather.from needs a direction and a width",
                                 "write { from = \"WSW\", within = \"25 deg\" }");
        return {};
    }
    Spec width = find_spec("weather.direction_error");
    width.name = "weather.from.within";
    return {input::read_quantity(*from, input::Dimension::kDirection, draft.problems)
                .value_or(0.0),
            read_value(*within, width, draft.problems)};
}

void read_from(Draft& draft, Table& weather, ForecastRow& row) {
    const Spec& spec = find_spec("weather.direction_error");
    const Direction direction = read_direction(draft, weather);
    row.from_rad = direction.from_rad;
    const auto stated = weather.find_value(spec);
    const double within =
        direction.within_rad.value_or(stated.value_or(to_si(spec.unit, spec.usual.mid)));
    StatedValue error = make_stated_point(0.0);
    if (within >= kHalfTurn_rad) {
        error.luck = chance::make_uniform(-kHalfTurn_rad, kHalfTurn_rad);
        error.deviation = Deviation::kAdd;
    } else if (within > 0.0) {
        error.luck = chance::make_normal(0.0, within / chance::kScoreOf95);
        error.deviation = Deviation::kAdd;
    }
    Input input = make_input(spec, error);
    input.name = "weather.from";
    input.label = "wind direction off the forecast";
    if (stated || (direction.within_rad && weather.find("from"))) {
        input.origin = Origin::kStated;
        input.source = "stated";
    }
    draft.model.weather.direction_error_rad = add_input(draft, std::move(input));
}

void read_temperature(Draft& draft, Table& weather, ForecastRow& row) {
    const Spec& spec = find_spec("weather.temperature");
    const Spec& error_spec = find_spec("weather.temperature_error");
    Input input = read_input(weather, spec);
    row.temperature_k = find_middle(input);
    if (!weather.find("temperature")) note_default(draft, spec, row.temperature_k);
    const bool spread =
        input.deviation != Deviation::kNone || input.knowledge.shape != Shape::kPoint;
    if (spread) {
        input.knowledge = shift_distribution(input.knowledge, -row.temperature_k);
        weather.find("temperature_error");
    } else {
        const auto stated = weather.find_value(error_spec);
        const double within = stated.value_or(error_spec.usual.mid);
        StatedValue error = make_stated_point(0.0);
        if (within > 0.0) {
            error.luck = chance::make_normal(0.0, within / chance::kScoreOf95);
            error.deviation = Deviation::kAdd;
        }
        input = make_input(spec, error);
        input.origin = stated ? Origin::kStated : Origin::kAssumption;
        input.source = stated ? "stated" : "assumption, evening before the race";
    }
    draft.model.weather.temperature_error_k = add_input(
        draft, name_error(std::move(input), "temperature off the forecast", kKelvinStep));
}

// Uniform level that a row's chance of rain is compared with.
void add_rain_level(Draft& draft) {
    Input level;
    level.name = "weather.wet_or_dry";
    level.label = "wet or dry";
    level.knowledge = chance::make_point(0.0);
    level.luck = chance::make_uniform(0.0, 1.0);
    level.deviation = Deviation::kAdd;
    level.origin = Origin::kStated;
    level.source = "wet where it lies below the chance of rain";
    draft.model.weather.rain = add_input(draft, std::move(level));
}

// A factor, or the speed of the gusts beside a mean wind.
std::optional<double> read_gust_ratio(const Node& node, const std::string& what,
                                      double mean_m_s, base::ProblemList& problems) {
    Spec spec = find_spec("weather.gust");
    spec.name = what;
    const bool is_speed =
        node.is(input::NodeKind::kString) &&
        static_cast<bool>(input::parse_quantity(node.text, input::Dimension::kSpeed));
    const bool is_number =
        !node.is(input::NodeKind::kString) ||
        static_cast<bool>(input::parse_quantity(node.text, input::Dimension::kNumber));
    if (!is_speed && !is_number) {
        problems.add_error(
            node.place, fmt::format("{} cannot be \"{}\"", what, node.text), spec.advice);
        return std::nullopt;
    }
    if (!is_speed) return read_value(node, spec, problems);
    const double gust_m_s = *input::parse_quantity(node.text, input::Dimension::kSpeed);
    if (mean_m_s <= 0.0) {
        problems.add_error(node.place, what + " is a speed beside no wind",
                           "write the mean wind too, or gust as a factor");
        return std::nullopt;
    }
    if (gust_m_s < mean_m_s) {
        problems.add_error(node.place,
                           fmt::format("{} is {}, less than the mean wind of {}", what,
                                       write_value(kKilometrePerHour, gust_m_s),
                                       write_value(kKilometrePerHour, mean_m_s)),
                           spec.advice);
        return std::nullopt;
    }
    const double ratio = gust_m_s / mean_m_s;
    if (!check_limits(ratio, spec, node.place, problems)) return std::nullopt;
    return ratio;
}

// Hours without a gust of their own take the general one.
void settle_gusts(Weather& weather) {
    const bool any_has_one =
        std::any_of(weather.rows.begin(), weather.rows.end(),
                    [](const ForecastRow& row) { return row.gust_ratio.has_value(); });
    if (!any_has_one) return;
    double most = 1.0;
    for (ForecastRow& row : weather.rows) {
        row.gust_ratio = row.gust_ratio.value_or(weather.gust_ratio);
        most = std::max(most, *row.gust_ratio);
    }
    weather.gust_ratio = most;
}

std::optional<ForecastRow> read_row(Draft& draft, const Node& node,
                                    const ForecastRow& usual) {
    Table table(&node, "weather.rows", draft.problems);
    ForecastRow row = usual;
    const auto value = [&](const char* spec, double otherwise) {
        return table.find_value(find_spec(spec)).value_or(otherwise);
    };
    row.temperature_k = value("weather.temperature", usual.temperature_k);
    row.wind_m_s = value("weather.wind", usual.wind_m_s);
    row.rain_chance = value("weather.rain", usual.rain_chance);
    if (const Node* from = table.find("from")) {
        row.from_rad =
            input::read_quantity(*from, input::Dimension::kDirection, draft.problems)
                .value_or(usual.from_rad);
    }
    if (const Node* gust = table.find("gust")) {
        row.gust_ratio =
            read_gust_ratio(*gust, "weather.rows.gust", row.wind_m_s, draft.problems);
    }
    const Node* at = table.find("at");
    table.reject_unknown_keys();
    if (!at) {
        draft.problems.add_error(node.place, "weather.rows: a row has no time",
                                 "write at = \"09:00\"");
        return std::nullopt;
    }
    const auto clock = input::read_clock(*at, draft.problems);
    if (!clock) return std::nullopt;
    row.clock_s = clock->second_of_day;
    return row;
}

void read_rows(Draft& draft, Table& weather, const ForecastRow& usual) {
    std::vector<ForecastRow>& rows = draft.model.weather.rows;
    const Node* list = weather.find("rows");
    if (!list) {
        rows = {usual};
        rows.front().clock_s = draft.model.race.start_clock_s;
        return;
    }
    if (!list->is_table_list()) {
        weather.add_error(*list, "weather.rows is no list of tables",
                          "write rows = [{ at = \"09:00\", wind = \"13 km/h\" }, ...]");
    }
    for (const Node& item : list->items) {
        if (!item.is(input::NodeKind::kTable)) continue;
        const auto row = read_row(draft, item, usual);
        if (!row) continue;
        if (!rows.empty() && row->clock_s <= rows.back().clock_s) {
            draft.problems.add_error(
                item.place, "weather.rows: a row is not later than the one before",
                "order the rows by their time");
        }
        rows.push_back(*row);
    }
    if (rows.empty()) rows = {usual};
}

// The general gust, and for each hour its own or that; places get those of the gustiest.
void read_gust(Draft& draft, Table& weather) {
    Weather& model = draft.model.weather;
    const Node* node = weather.find("gust");
    double mean_m_s = 0.0;
    for (const ForecastRow& row : model.rows) mean_m_s = std::max(mean_m_s, row.wind_m_s);
    const bool each_has_one =
        std::all_of(model.rows.begin(), model.rows.end(),
                    [](const ForecastRow& row) { return row.gust_ratio.has_value(); });
    if (node) {
        const auto ratio =
            read_gust_ratio(*node, "weather.gust", mean_m_s, draft.problems);
        model.gust_ratio = ratio.value_or(model.gust_ratio);
    } else if (!each_has_one) {
        model.gust_ratio = take_setting(draft, weather, find_spec("weather.gust"));
    }
    settle_gusts(model);
}

void read_air(Draft& draft, Table& weather) {
    Weather& model = draft.model.weather;
    Spec pressure = find_spec("weather.pressure");
    if (draft.model.course) {
        const double height_m = draft.model.course->nodes.front().elevation_m;
        pressure.usual.mid =
            from_si(pressure.unit, physics::compute_standard_pressure_pa(height_m));
    }
    model.pressure_pa = take_setting(draft, weather, pressure);
    model.humidity = take_setting(draft, weather, find_spec("weather.humidity"));
}

}  // namespace

void read_weather(Draft& draft, Table& weather) {
    ForecastRow usual;
    read_wind(draft, weather, usual);
    read_from(draft, weather, usual);
    read_temperature(draft, weather, usual);
    usual.rain_chance = take_setting(draft, weather, find_spec("weather.rain"));
    add_rain_level(draft);
    read_rows(draft, weather, usual);
    read_gust(draft, weather);
    draft.model.weather.gust_length_m =
        take_setting(draft, weather, find_spec("weather.gust_length"));
    read_air(draft, weather);
}

}  // namespace flattail::scenario
