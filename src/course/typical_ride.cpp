#include "course/typical_ride.h"

#include <algorithm>
#include <cmath>

#include "base/expects.h"

namespace flattail::course {
namespace {

constexpr double kGravity_m_s2 = 9.80665;  // ISO 80000-3, standard value
/// Whoever is slower walks (common practice).
constexpr double kWalk_m_s = 0.75;
constexpr double kStart_m_s = 2.0;
/// Order 4 is stable up to 2.7 relaxations a step; .25 leaves no visible error.
constexpr double kStepRelaxation = 0.25;

class PieceBalance {
  public:
    PieceBalance(const Piece& piece, const TypicalRider& rider)
        : rider_(rider),
          road_force_n_(rider.mass_kg * kGravity_m_s2 *
                        (piece.sin_slope +
                         rider.crr[static_cast<std::size_t>(index_of(piece.surface))] *
                             std::sqrt(1.0 - piece.sin_slope * piece.sin_slope))) {}

    /// d(v^2)/ds.
    double gain(double speed_sq) const {
        const double e = std::max(speed_sq, kWalk_m_s * kWalk_m_s);
        const double force_n =
            rider_.power_w / std::sqrt(e) - rider_.half_rho_cda_kg_m * e - road_force_n_;
        return 2.0 * force_n / rider_.effective_mass_kg;
    }
    /// Relaxations per metre.
    double relax(double speed_sq) const {
        const double v = std::sqrt(std::max(speed_sq, kWalk_m_s * kWalk_m_s));
        return (rider_.power_w / (v * v) + 2.0 * rider_.half_rho_cda_kg_m * v) /
               (rider_.effective_mass_kg * v);
    }
    double step(double e, double ds_m) const {
        const double k1 = gain(e);
        const double k2 = gain(e + 0.5 * ds_m * k1);
        const double k3 = gain(e + 0.5 * ds_m * k2);
        const double k4 = gain(e + ds_m * k3);
        return std::max(e + ds_m / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4),
                        kWalk_m_s * kWalk_m_s);
    }

  private:
    const TypicalRider& rider_;
    double road_force_n_;
};

}  // namespace

TypicalRide ride_typically(const Course& course, const TypicalRider& rider) {
    FLATTAIL_EXPECTS(course.nodes.size() == course.pieces.size() + 1);
    TypicalRide ride;
    double e = kStart_m_s * kStart_m_s;
    e = std::min(e, course.nodes.front().cap_m_s * course.nodes.front().cap_m_s);
    ride.speed_sq_m2_s2.push_back(e);
    for (std::size_t i = 0; i < course.pieces.size(); ++i) {
        const PieceBalance balance(course.pieces[i], rider);
        const double length_m = course.pieces[i].length_m;
        double relaxation = 0.0;
        double done_m = 0.0;
        while (done_m < length_m) {
            const double pace = balance.relax(e);
            const double ds_m = std::min(length_m - done_m, kStepRelaxation / pace);
            const double next = balance.step(e, ds_m);
            relaxation += 0.5 * ds_m * (pace + balance.relax(next));
            ride.time_s += 2.0 * ds_m / (std::sqrt(e) + std::sqrt(next));
            e = next;
            done_m = ds_m < length_m - done_m ? done_m + ds_m : length_m;
        }
        const double cap_m_s = course.nodes[i + 1].cap_m_s;
        e = std::min(e, cap_m_s * cap_m_s);
        ride.speed_sq_m2_s2.push_back(e);
        ride.relaxation.push_back(relaxation);
    }
    return ride;
}

}  // namespace flattail::course
