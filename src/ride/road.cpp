#include "ride/road.h"

#include <algorithm>
#include <cmath>

#include "chance/distribution.h"
#include "physics/air.h"
#include "physics/gas_mix.h"
#include "physics/rolling.h"
#include "ride/pacing.h"

namespace flattail::ride {

namespace {

// What changes with the clock is read anew at marks. Halving it moves a windy ride by .02
// s.
constexpr double kMarkSpacingM = 2000.0;
// Against adaptive Runge-Kutta these two keep rolling courses within .01 % and corners
// within .05 % (tests/reference/ride_accuracy_test.cpp); the error falls with the square
// of both.
constexpr double kLongestSegmentM = 100.0;
constexpr double kMostEnergyRatio = 0.3;
// Where the first metres after a standing start are cut, so that speed gained is
// resolved.
constexpr double kStartCutsM[] = {kLaunchM, 30.0, 45.0, 68.0, 100.0};

// The segment in two, at `at_m` from the start of the course.
void cut_at(std::vector<course::Segment>& segments, double at_m) {
    for (std::size_t i = 0; i < segments.size(); ++i) {
        const double from = segments[i].from_m, end = from + segments[i].length_m;
        if (at_m <= from + 1e-6 || at_m >= end - 1e-6) continue;
        course::Segment second = segments[i];
        segments[i].length_m = at_m - from;
        segments[i].cap_m_s = course::kUncapped_m_s;
        second.from_m = at_m;
        second.length_m = end - at_m;
        segments.insert(segments.begin() + static_cast<std::ptrdiff_t>(i) + 1, second);
        return;
    }
}

// What stands inside the first cut becomes one segment: the launch rides it in steps of
// its own.
void merge_launch(std::vector<course::Segment>& segments) {
    while (segments.size() > 1 &&
           segments[0].from_m + segments[0].length_m < kLaunchM - 1e-6) {
        segments[0].length_m += segments[1].length_m;
        segments.erase(segments.begin() + 1);
    }
}

std::vector<course::Segment> cut_start(std::vector<course::Segment> segments) {
    for (const double at : kStartCutsM) cut_at(segments, at);
    merge_launch(segments);
    return segments;
}

SegmentTerms make_terms(const course::Segment& s, double start_altitude_m) {
    SegmentTerms t{};
    t.inv_length = 1.0 / s.length_m;
    t.twice_length = 2.0 * s.length_m;
    t.sin_slope = s.sin_slope;
    t.cos_slope = s.cos_slope;
    t.head_x = s.head_x;
    t.head_y = s.head_y;
    t.shelter_sq = s.shelter_sq;
    t.air_ratio = physics::compute_density_ratio(s.altitude_m, start_altitude_m);
    t.pace = 1.0;
    t.wind_pace = 0.0;
    t.cap_m_s = s.cap_m_s;
    t.surface = course::index_of(s.surface);
    return t;
}

struct RowValues {
    double x, y, temperature_k, rain;
};

RowValues read_row(const scenario::ForecastRow& row) {
    return {row.wind_m_s * std::sin(row.from_rad), row.wind_m_s * std::cos(row.from_rad),
            row.temperature_k, row.rain_chance};
}

// Slopes between rows become bends at the rows: the first bend starts the first slope,
// the last one ends the last.
void add_bends(Forecast& f, ForecastCurve& curve, const std::vector<double>& values) {
    curve.first = values.front();
    double slope_before = 0.0;
    for (int k = 0; k < f.hinges; ++k) {
        const auto i = static_cast<std::size_t>(k);
        const bool last = k + 1 == f.hinges;
        const double slope =
            last ? 0.0 : (values[i + 1] - values[i]) / (f.clock_s[k + 1] - f.clock_s[k]);
        curve.bend[k] = slope - slope_before;
        slope_before = slope;
    }
}

// Places have the gusts of the gustiest hour; other hours take a share of them.
void add_gusts(const scenario::Weather& weather, Forecast& f) {
    const double most = weather.gust_ratio - 1.0;
    std::vector<double> shares;
    for (const auto& row : weather.rows) {
        f.gusts_vary |= most > 0.0 && row.gust_ratio.has_value();
        const double gust = row.gust_ratio.value_or(weather.gust_ratio) - 1.0;
        shares.push_back(most > 0.0 ? gust / most : 1.0);
    }
    add_bends(f, f.gust, shares);
}

Forecast build_forecast(const scenario::Weather& weather) {
    Forecast f;
    std::vector<double> x, y, temperature, rain;
    for (const auto& row : weather.rows) {
        const RowValues v = read_row(row);
        x.push_back(v.x);
        y.push_back(v.y);
        temperature.push_back(v.temperature_k);
        rain.push_back(v.rain);
    }
    if (weather.rows.size() > 1) {
        f.hinges =
            static_cast<int>(std::min<std::size_t>(weather.rows.size(), kMostHinges));
        for (int k = 0; k < f.hinges; ++k) {
            f.clock_s[k] = weather.rows[static_cast<std::size_t>(k)].clock_s;
        }
    }
    add_bends(f, f.wind_x, x);
    add_bends(f, f.wind_y, y);
    add_bends(f, f.temperature_k, temperature);
    add_bends(f, f.rain_chance, rain);
    add_gusts(weather, f);
    return f;
}

std::vector<Gate> build_gates(const scenario::Race& race, const Road& road) {
    std::vector<Gate> gates;
    for (const scenario::Cutoff& cutoff : race.cutoffs) {
        const auto behind = std::find_if(
            road.segments.begin(), road.segments.end(),
            [&](const course::Segment& s) { return s.from_m >= cutoff.at_m - 1e-6; });
        gates.push_back({static_cast<int>(behind - road.segments.begin()),
                         cutoff.within_s, cutoff.clock_s});
    }
    return gates;
}

RefreshTerms build_refresh(const scenario::Model& model) {
    RefreshTerms r;
    r.start_clock_s = model.race.start_clock_s;
    r.fade_from_s = model.rider.fade_from_s;
    r.temperature_slope = physics::kTemperatureCoefficient;
    r.temperature_low_k = physics::kColdestRollingTemperature;
    r.temperature_high_k = physics::kHottestRollingTemperature;
    r.reference_temperature_k = physics::kRollingReferenceTemperature;
    r.air_pressure_pa = model.weather.pressure_pa;
    const physics::GasMix outside = physics::make_air(model.weather.pressure_pa);
    std::copy(outside.partial_pa.begin(), outside.partial_pa.end(), r.outside_pa);
    r.softest_gauge_pa = physics::kFlatWheelPressure;
    r.hysteresis_exponent = physics::kDefaultHysteresisExponent;
    r.roughness_exponent = physics::kDefaultRoughnessExponent;
    r.wet_cap_ratio = model.road.wet_cap_ratio;
    return r;
}

// Tyres follow the temperature; leaks alone are told well enough from half as many marks:
// within .2 % of what they cost (tests/unit/ride/wheel_gas_test.cpp).
constexpr int kPressureMarks = 5, kSteadyPressureMarks = 10;

int count_marks_per_pressure(const Forecast& f) {
    const bool varies = std::any_of(f.temperature_k.bend, f.temperature_k.bend + f.hinges,
                                    [](double bend) { return bend != 0.0; });
    return varies ? kPressureMarks : kSteadyPressureMarks;
}

void clock_typical_rider(const scenario::Model& model, const course::TypicalRider& rider,
                         Road& road) {
    const std::vector<TypicalMoment> ridden = ride_typical(model, rider, road);
    road.typical_s.push_back(0.0);
    for (std::size_t i = 0; i < ridden.size(); ++i) {
        const double length_m = road.segments[i].length_m;
        road.typical_s.push_back(road.typical_s[i] + length_m / ridden[i].speed_m_s);
    }
}

}  // namespace

double Road::half_way_s(int segment) const {
    std::size_t end = typical_s.size() - 1;
    for (std::size_t m = 0; m < mark_segment.size(); ++m) {
        if (mark_segment[m] <= segment || !is_pressure_mark(static_cast<int>(m)))
            continue;
        end = static_cast<std::size_t>(mark_segment[m]);
        break;
    }
    return 0.5 * (typical_s[end] - typical_s[static_cast<std::size_t>(segment)]);
}

double read_forecast(const Forecast& forecast, const ForecastCurve& curve,
                     double clock_s) {
    double value = curve.first;
    for (int k = 0; k < forecast.hinges; ++k) {
        value += curve.bend[k] * std::max(clock_s - forecast.clock_s[k], 0.0);
    }
    return value;
}

double find_median(const scenario::Model& model, InputId id) {
    const Input& input = model.input(id);
    const double centre = chance::quantile(input.knowledge, 0.5);
    if (input.deviation == Deviation::kNone) return centre;
    const double luck = chance::quantile(input.luck, 0.5);
    return input.deviation == Deviation::kAdd ? centre + luck : centre * luck;
}

course::TypicalRider find_typical_rider(const scenario::Model& model) {
    course::TypicalRider rider;
    const auto median = [&](InputId id) { return find_median(model, id); };
    rider.power_w = median(model.rider.power_w) * model.rider.drivetrain_efficiency;
    rider.mass_kg = median(model.rider.mass_kg) + median(model.rider.bicycle_kg) +
                    median(model.rider.clothing_kg);
    rider.effective_mass_kg = rider.mass_kg + model.rider.wheel_inertia_kg;
    physics::AirState air;
    const Forecast forecast = build_forecast(model.weather);
    air.temperature_k =
        read_forecast(forecast, forecast.temperature_k, model.race.start_clock_s);
    air.pressure_pa = model.weather.pressure_pa;
    air.relative_humidity = model.weather.humidity;
    rider.half_rho_cda_kg_m =
        0.5 * physics::compute_air_density_kg_m3(air) * median(model.rider.drag_area_m2);
    for (std::size_t s = 0; s < rider.crr.size(); ++s)
        rider.crr[s] = median(model.road.crr[s]);
    return rider;
}

Road build_road(const scenario::Model& model) {
    Road road;
    course::SplitOptions options;
    options.mark_spacing_m = kMarkSpacingM;
    options.max_length_m = kLongestSegmentM;
    options.max_energy_ratio = kMostEnergyRatio;
    const course::TypicalRider rider = find_typical_rider(model);
    road.segments = cut_start(course::split_course(*model.course, rider, options));
    for (const scenario::Cutoff& cutoff : model.race.cutoffs) {
        cut_at(road.segments, cutoff.at_m);
    }
    const double start_altitude = model.course->nodes.front().elevation_m;
    for (std::size_t i = 0; i < road.segments.size(); ++i) {
        SegmentTerms terms = make_terms(road.segments[i], start_altitude);
        terms.limit_m_s = std::min(model.race.speed_limit_m_s, course::kUncapped_m_s);
        road.terms.push_back(terms);
    }
    road.mark_segment = course::find_marks(road.segments, kMarkSpacingM).first_segment;
    for (std::size_t m = 0; m < road.mark_segment.size(); ++m) {
        const auto first = static_cast<std::size_t>(road.mark_segment[m]);
        const double from = road.segments[first].from_m;
        const double to =
            m + 1 < road.mark_segment.size()
                ? road.segments[static_cast<std::size_t>(road.mark_segment[m + 1])].from_m
                : model.course->length_m;
        road.mark_m.push_back(0.5 * (from + to));
    }
    road.gates = build_gates(model.race, road);
    road.forecast = build_forecast(model.weather);
    road.refresh = build_refresh(model);
    const bool steady = model.rider.pacing == scenario::Pacing::kSteady;
    apply_pacing(steady ? physics::kSteadyPacing : physics::PacingLaw{}, model, rider,
                 road);
    road.yaw = build_yaw_road(model, rider, road);
    road.marks_per_pressure = count_marks_per_pressure(road.forecast);
    clock_typical_rider(model, rider, road);
    return road;
}

}  // namespace flattail::ride
