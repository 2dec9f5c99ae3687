#include "physics/force_balance.h"

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "base/expects.h"

namespace flattail::physics {
namespace {

/// Drag per m2 of drag area; its sign is that of the air speed along the travel.
double compute_drag_pressure_pa(const RoadAir& air, double speed_m_s, DragForm form) {
    const double along_m_s = speed_m_s + air.head_wind_m_s;
    const double size_m_s = form == DragForm::kAlongTravel
                                ? std::abs(along_m_s)
                                : std::hypot(along_m_s, air.cross_wind_m_s);
    return 0.5 * air.air_density_kg_m3 * size_m_s * along_m_s;
}

/// Root of a rising function with f(low) <= 0; the upper end is found by doubling.
template <class Function>
double solve_rising(const Function& f, double low, double step) {
    const double f_low = f(low);
    if (f_low >= 0.0) return low;
    double high = low + step;
    double f_high = f(high);
    while (f_high < 0.0) {
        step *= 2.0;
        high += step;
        f_high = f(high);
    }
    std::uintmax_t tries = 100;
    const auto [left, right] = boost::math::tools::toms748_solve(
        f, low, high, f_low, f_high, boost::math::tools::eps_tolerance<double>(50),
        tries);
    return 0.5 * (left + right);
}

}  // namespace

Forces compute_forces(const Body& body, const RoadAir& air, double speed_m_s,
                      DragForm form) {
    // Sine and cosine of atan(slope), without the angle.
    const double cosine = 1.0 / std::sqrt(1.0 + air.slope_ratio * air.slope_ratio);
    const double weight_n = body.mass_kg * body.gravity_m_s2;
    const double area_m2 = body.cda_m2 + body.spoke_area_m2;
    return {area_m2 * compute_drag_pressure_pa(air, speed_m_s, form),
            weight_n * body.crr * cosine, kBearingForce + kBearingSlope * speed_m_s,
            weight_n * air.slope_ratio * cosine};
}

double compute_steady_power_w(const Body& body, const RoadAir& air, double speed_m_s,
                              DragForm form) {
    const double wheel_power_w =
        speed_m_s * compute_forces(body, air, speed_m_s, form).sum_n();
    return compute_pedal_power_w(wheel_power_w, body.efficiency);
}

double solve_steady_speed_m_s(const Body& body, const RoadAir& air, double pedal_power_w,
                              DragForm form) {
    FLATTAIL_EXPECTS(pedal_power_w >= 0.0);
    FLATTAIL_EXPECTS(body.cda_m2 + body.spoke_area_m2 > 0.0 &&
                     air.air_density_kg_m3 > 0.0);
    const auto force_n = [&](double speed_m_s) {
        return compute_forces(body, air, speed_m_s, form).sum_n();
    };
    constexpr double kFirstStep = 5.0;  // m/s, only where the search for a bracket begins
    const double coasting_m_s = solve_rising(force_n, 0.0, kFirstStep);
    if (pedal_power_w <= 0.0) return coasting_m_s;
    // From the coasting speed on, force and power both rise, so the root is the only one.
    const auto missing_w = [&](double speed_m_s) {
        return speed_m_s * force_n(speed_m_s) -
               compute_wheel_power_w(pedal_power_w, body.efficiency);
    };
    return solve_rising(missing_w, coasting_m_s, kFirstStep);
}

double solve_drag_area_m2(const Body& body, const RoadAir& air, double speed_m_s,
                          double pedal_power_w, DragForm form) {
    FLATTAIL_EXPECTS(speed_m_s > 0.0);
    const double pressure_pa = compute_drag_pressure_pa(air, speed_m_s, form);
    FLATTAIL_EXPECTS(pressure_pa > 0.0);
    const Forces forces = compute_forces(body, air, speed_m_s, form);
    const double others_n = forces.rolling_n + forces.bearings_n + forces.gravity_n;
    const double drive_n =
        compute_wheel_power_w(pedal_power_w, body.efficiency) / speed_m_s;
    return (drive_n - others_n) / pressure_pa - body.spoke_area_m2;
}

double compute_effective_mass_kg(double mass_kg, const WheelInertia& wheels) {
    return mass_kg + wheels.moment_kg_m2 / (wheels.radius_m * wheels.radius_m);
}

double compute_acceleration_m_s2(const Body& body, const RoadAir& air, double speed_m_s,
                                 double pedal_power_w, const WheelInertia& wheels) {
    FLATTAIL_EXPECTS(speed_m_s > 0.0);
    const double drive_n =
        compute_wheel_power_w(pedal_power_w, body.efficiency) / speed_m_s;
    const double against_n = compute_forces(body, air, speed_m_s).sum_n();
    return (drive_n - against_n) / compute_effective_mass_kg(body.mass_kg, wheels);
}

PowerTerms compute_power_terms(const Body& body, const RoadAir& air,
                               const RoadTrial& trial, DragForm form) {
    FLATTAIL_EXPECTS(trial.duration_s > 0.0);
    const double speed_m_s = trial.mean_speed_m_s;
    const Forces forces = compute_forces(body, air, speed_m_s, form);
    const double gained_m2_s2 = trial.exit_speed_m_s * trial.exit_speed_m_s -
                                trial.entry_speed_m_s * trial.entry_speed_m_s;
    const double kinetic_j =
        0.5 * compute_effective_mass_kg(body.mass_kg, trial.wheels) * gained_m2_s2;
    return {forces.drag_n * speed_m_s, forces.rolling_n * speed_m_s,
            forces.bearings_n * speed_m_s, forces.gravity_n * speed_m_s,
            kinetic_j / trial.duration_s};
}

}  // namespace flattail::physics
