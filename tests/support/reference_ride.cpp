#include "support/reference_ride.h"

#include <algorithm>
#include <array>
#include <boost/numeric/odeint.hpp>
#include <cmath>

#include "physics/air.h"
#include "physics/rolling.h"
#include "ride/road.h"

namespace flattail::support {

namespace {

namespace odeint = boost::numeric::odeint;
using State = std::array<double, 2>;  // v^2 / 2, time

constexpr double kGravity = 9.80665;
constexpr double kTolerance = 1e-10;
constexpr double kFirstMetres = 0.01;  // constant force from rest, closed form

// Straight lines over the yaw itself, read at every instant; written apart from the
// program's own table. What the rows give is drag along the bicycle at one air speed.
double find_air_force(const std::vector<physics::YawRow>& rows, double w, double air) {
    if (rows.empty()) return w * air;
    const double yaw = std::acos(std::clamp(w / std::max(air, 1e-9), -1.0, 1.0));
    if (yaw >= rows.back().yaw_rad) {
        return w * air * rows.back().factor / std::cos(rows.back().yaw_rad);
    }
    std::size_t i = 1;
    while (rows[i].yaw_rad < yaw) ++i;
    const auto &a = rows[i - 1], &b = rows[i];
    const double share = (yaw - a.yaw_rad) / (b.yaw_rad - a.yaw_rad);
    return air * air * (a.factor + share * (b.factor - a.factor));
}

struct PieceForces {
    const ReferenceRider& r;
    double sin_slope, cos_slope, head_wind, wind_sq, air_ratio, crr;

    double net(double v) const {
        const double w = v + head_wind;
        const double air =
            std::sqrt(std::max(v * v + 2.0 * v * head_wind + wind_sq, 0.0));
        const double drive = std::min(r.power_w / std::max(v, 1e-9), r.launch_force_n);
        return drive -
               r.half_rho_cda * air_ratio * find_air_force(r.drag_by_yaw, w, air) -
               r.mass_kg * kGravity * (sin_slope + crr * cos_slope) - 0.091 - 0.0087 * v;
    }
    void operator()(const State& x, State& dxds, double) const {
        const double v = std::sqrt(std::max(2.0 * x[0], 1e-12));
        dxds[0] = net(v) / r.effective_mass_kg;
        dxds[1] = 1.0 / v;
    }
};

void integrate(const PieceForces& forces, State& x, double length_m) {
    using Stepper = odeint::runge_kutta_dopri5<State>;
    auto stepper = odeint::make_controlled<Stepper>(kTolerance, kTolerance);
    odeint::integrate_adaptive(stepper, forces, x, 0.0, length_m,
                               std::min(length_m, 0.01));
}

State push_off(const PieceForces& forces) {
    const double acceleration = forces.net(0.0) / forces.r.effective_mass_kg;
    const double energy = acceleration * kFirstMetres;
    return {energy, 2.0 * kFirstMetres / std::sqrt(2.0 * energy)};
}

PieceForces forces_on(const ReferenceRider& r, const course::Course& c, std::size_t i) {
    const course::Piece& p = c.pieces[i];
    const double east = p.east * p.shelter, north = p.north * p.shelter;
    const double altitude = 0.5 * (c.nodes[i].elevation_m + c.nodes[i + 1].elevation_m);
    return {r,
            p.sin_slope,
            std::sqrt(1.0 - p.sin_slope * p.sin_slope),
            r.wind_x * east + r.wind_y * north,
            p.shelter * p.shelter * (r.wind_x * r.wind_x + r.wind_y * r.wind_y),
            physics::compute_density_ratio(altitude, c.nodes.front().elevation_m),
            r.crr[course::index_of(p.surface)]};
}

double find_steady_speed(const PieceForces& forces) {
    double low = 0.1, high = 45.0;
    for (int k = 0; k < 200; ++k) {
        const double mid = 0.5 * (low + high);
        (forces.net(mid) > 0.0 ? low : high) = mid;
    }
    return low;
}

}  // namespace

ReferenceRider make_reference_rider(const scenario::Model& model) {
    const course::TypicalRider t = ride::find_typical_rider(model);
    ReferenceRider r;
    r.power_w = t.power_w;
    r.mass_kg = t.mass_kg;
    r.effective_mass_kg = t.effective_mass_kg;
    r.half_rho_cda = t.half_rho_cda_kg_m;
    std::copy(t.crr.begin(), t.crr.end(), r.crr);
    const scenario::ForecastRow& row = model.weather.rows.front();
    r.wind_x = row.wind_m_s * std::sin(row.from_rad);
    r.wind_y = row.wind_m_s * std::cos(row.from_rad);
    r.launch_force_n = model.rider.launch_force_n;
    return r;
}

double ride_reference(const course::Course& c, const ReferenceRider& rider,
                      scenario::StartKind start) {
    State x{0.0, 0.0};
    for (std::size_t i = 0; i < c.pieces.size(); ++i) {
        const PieceForces forces = forces_on(rider, c, i);
        double length = c.pieces[i].length_m;
        if (i == 0 && start == scenario::StartKind::kStanding) {
            x = push_off(forces);
            length -= kFirstMetres;
        } else if (i == 0) {
            const double v = find_steady_speed(forces);
            x = {0.5 * v * v, 0.0};
        }
        integrate(forces, x, length);
        const double cap = c.nodes[i + 1].cap_m_s;
        x[0] = std::min(x[0], 0.5 * cap * cap);
    }
    return x[1];
}

ReferenceStart start_reference(const ReferenceRider& rider, double distance_m) {
    const PieceForces forces{rider, 0.0, 1.0, 0.0, 0.0, 1.0, rider.crr[1]};
    State x = push_off(forces);
    integrate(forces, x, distance_m - kFirstMetres);
    return {x[1], std::sqrt(2.0 * x[0])};
}

}  // namespace flattail::support
