#include "scenario/rider/course_ride.h"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "chance/distribution.h"
#include "physics/air.h"
#include "physics/rolling.h"
#include "scenario/forecast.h"

namespace flattail::scenario {

namespace {

constexpr double kStart_m_s = 2.0;
// Whoever is slower walks (common practice).
constexpr double kWalk_m_s = 0.75;
// Where the forecast knows no direction, the wind is tried from all round.
constexpr int kUnknownWinds = 8;

double find_middle(const Model& model, InputId id) {
    return id.is_set() ? chance::quantile(model.input(id).knowledge, 0.5) : 0.0;
}

// Rolling of both wheels on one surface: the race tyre's, what tyre and inner change, and
// the temperature of the day on what is lost inside the tyre.
double find_crr(const Model& model, const Setup& setup, std::size_t surface,
                double temperature_k) {
    const double race = find_middle(model, model.road.crr[surface]);
    double change = -find_middle(model, setup.rolling_saved_crr);
    for (const Wheel& wheel : setup.wheels) {
        const auto& tyre = model.tyres[static_cast<std::size_t>(wheel.tyre)];
        const auto& inner = model.inners[static_cast<std::size_t>(wheel.inner)];
        change += wheel.load_share * (find_middle(model, tyre.crr_change) +
                                      find_middle(model, inner.crr_change));
    }
    const double hysteresis = std::max(physics::kDefaultHysteresisCrr + change, 0.0);
    const double roughness = std::max(race - physics::kDefaultHysteresisCrr, 0.0);
    return hysteresis * physics::compute_temperature_factor(temperature_k) + roughness;
}

// Mean speed u over a piece from the energy balance with exit speed 2 u - v0, by Newton's
// steps; the balance rises with u from its lower end on.
double find_mean_speed(const physics::Body& body, const physics::RoadAir& air,
                       double length_m, double entry_m_s, double power_w) {
    constexpr int kMostSteps = 40;
    constexpr double kSolved_m_s = 1e-7, kProbe_m_s = 1e-4;
    const double mass_kg = physics::compute_effective_mass_kg(body.mass_kg);
    const double wheel_power_w = physics::compute_wheel_power_w(power_w, body.efficiency);
    const auto balance = [&](double u) {
        const double force_n = physics::compute_forces(body, air, u).sum_n();
        return u * (force_n + 2.0 * mass_kg * u * (u - entry_m_s) / length_m) -
               wheel_power_w;
    };
    const double least = 0.5 * (entry_m_s + kWalk_m_s);
    double u = std::max(entry_m_s, kWalk_m_s);
    for (int i = 0; i < kMostSteps; ++i) {
        const double here = balance(u);
        const double slope = (balance(u + kProbe_m_s) - here) / kProbe_m_s;
        const double next = slope > 0.0 ? std::max(u - here / slope, least) : 2.0 * u;
        const bool solved = std::abs(next - u) < kSolved_m_s;
        u = next;
        if (solved) break;
    }
    return u;
}

// The argument at which a falling function has a value.
// Source: bracketing by Alefeld, Potra & Shi 1995
template <class Function>
std::optional<double> find_where_falling(const Function& function, double value,
                                         Bracket bracket) {
    constexpr double kExact = 1e-6;
    const auto above = [&](double x) { return std::log(function(x) / value); };
    const double at_low = above(bracket.low), at_high = above(bracket.high);
    if (at_low < 0.0 || at_high > 0.0) return std::nullopt;
    std::uintmax_t most_steps = 60;
    const auto [low, high] = boost::math::tools::toms748_solve(
        above, bracket.low, bracket.high, at_low, at_high,
        [](double a, double b) { return b - a <= kExact * b; }, most_steps);
    return 0.5 * (low + high);
}

}  // namespace

RideSetting describe_race(const Model& model, double split_s) {
    const auto& setup = model.setups[static_cast<std::size_t>(model.decision.against)];
    const ForecastRow row =
        read_forecast(model.weather, model.race.start_clock_s + 0.5 * split_s);
    RideSetting setting;
    setting.body.mass_kg = find_middle(model, model.rider.mass_kg) +
                           find_middle(model, model.rider.bicycle_kg) +
                           find_middle(model, model.rider.clothing_kg) +
                           setup.carried_kg();
    setting.body.efficiency = model.rider.drivetrain_efficiency;
    for (std::size_t s = 0; s < kSurfaces; ++s) {
        setting.crr[s] = find_crr(model, setup, s, row.temperature_k);
    }
    setting.density_kg_m3 = physics::compute_air_density_kg_m3(
        {row.temperature_k, model.weather.pressure_pa, model.weather.humidity});
    setting.wind_m_s = row.wind_m_s;
    setting.from_rad = row.from_rad;
    const Input& direction = model.input(model.weather.direction_error_rad);
    setting.from_anywhere = direction.luck.shape == Shape::kUniform;
    setting.limit_m_s = model.race.speed_limit_m_s;
    if (model.rider.pacing == Pacing::kSteady) setting.pacing = physics::kSteadyPacing;
    if (!model.rider.drag_by_yaw.empty()) {
        setting.yaw = physics::make_yaw_drag(model.rider.drag_by_yaw);
    }
    return setting;
}

CourseRide::CourseRide(const course::Course& course, const RideSetting& setting)
    : body_(setting.body), yaw_(setting.yaw) {
    const int winds = setting.from_anywhere ? kUnknownWinds : 1;
    for (int k = 0; k < winds; ++k) {
        lay_road(course, setting, setting.from_rad + 2.0 * physics::kPi * k / winds);
    }
}

void CourseRide::lay_road(const course::Course& course, const RideSetting& setting,
                          double from_rad) {
    const double start_m = course.nodes.front().elevation_m;
    const double east = setting.wind_m_s * std::sin(from_rad);
    const double north = setting.wind_m_s * std::cos(from_rad);
    std::vector<Stretch> road;
    for (std::size_t i = 0; i < course.pieces.size(); ++i) {
        const course::Piece& piece = course.pieces[i];
        Stretch stretch;
        stretch.length_m = piece.length_m;
        stretch.crr =
            setting.crr[static_cast<std::size_t>(course::index_of(piece.surface))];
        stretch.cap_m_s = std::min(course.nodes[i + 1].cap_m_s, setting.limit_m_s);
        const double sine = piece.sin_slope;
        stretch.air.slope_ratio = sine / std::sqrt(1.0 - sine * sine);
        stretch.air.air_density_kg_m3 =
            setting.density_kg_m3 *
            physics::compute_density_ratio(course.nodes[i].elevation_m, start_m);
        stretch.air.head_wind_m_s =
            piece.shelter * (east * piece.east + north * piece.north);
        stretch.air.cross_wind_m_s =
            piece.shelter * (east * piece.north - north * piece.east);
        stretch.share =
            std::max(physics::compute_slope_share(setting.pacing, sine) +
                         setting.pacing.wind_gain_s_m * stretch.air.head_wind_m_s,
                     0.0);
        road.push_back(stretch);
    }
    roads_.push_back(std::move(road));
}

CourseRide::Ride CourseRide::ride_all(double power_w, double drag_area_m2) const {
    physics::Body body = body_;
    double time_s = 0.0, share_s = 0.0;
    for (const auto& road : roads_) {
        double speed = kStart_m_s;
        for (const Stretch& piece : road) {
            body.crr = piece.crr;
            // The speed at the entry is near enough for the angle of the air.
            body.cda_m2 = drag_area_m2 *
                          physics::find_yaw_ratio(yaw_, speed + piece.air.head_wind_m_s,
                                                  piece.air.cross_wind_m_s);
            const double mean = find_mean_speed(body, piece.air, piece.length_m, speed,
                                                power_w * piece.share);
            const double exit = std::clamp(2.0 * mean - speed, kWalk_m_s,
                                           std::max(piece.cap_m_s, kWalk_m_s));
            const double took_s = 2.0 * piece.length_m / (speed + exit);
            time_s += took_s;
            share_s += took_s * piece.share;
            speed = exit;
        }
    }
    return {time_s / static_cast<double>(roads_.size()), share_s / time_s};
}

double CourseRide::compute_time_s(double power_w, double drag_area_m2) const {
    // Three rounds bring the mean power within .1 % of the stated one.
    constexpr int kRounds = 3;
    Ride ride;
    for (int round = 0; round < kRounds; ++round) {
        ride = ride_all(power_w / ride.mean_share, drag_area_m2);
    }
    return ride.time_s;
}

std::optional<double> solve_power_w(const CourseRide& ride, double time_s,
                                    double drag_area_m2, const Bracket& power_w) {
    return find_where_falling(
        [&](double power) { return ride.compute_time_s(power, drag_area_m2); }, time_s,
        power_w);
}

// Speed falls with the area.
std::optional<double> solve_drag_area_m2(const CourseRide& ride, double time_s,
                                         double power_w, const Bracket& area_m2) {
    return find_where_falling(
        [&](double area) { return 1.0 / ride.compute_time_s(power_w, area); },
        1.0 / time_s, area_m2);
}

}  // namespace flattail::scenario
