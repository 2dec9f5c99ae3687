#include "chance/von_mises.h"

#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/special_functions/bessel.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <tuple>

#include "base/expects.h"
#include "base/lane_normal.h"

namespace flattail::chance {
namespace {

using base::lane::kPi;

// Above this the Bessel functions near overflow, and five terms of their expansions
// (Abramowitz & Stegun 9.7.1) leave 1e-14.
constexpr double kLargestExactBessel = 500.0;

/// I0(concentration) e^-concentration.
double scaled_bessel_0(double k) {
    if (k <= kLargestExactBessel) return boost::math::cyl_bessel_i(0, k) * std::exp(-k);
    const double x = 1.0 / (8.0 * k);
    const double series =
        1.0 + x * (1.0 + x * (9.0 / 2.0 + x * (225.0 / 6.0 + x * 11025.0 / 24.0)));
    return series / std::sqrt(2.0 * kPi * k);
}

double exp_of_cosine(double offset_rad, double concentration) {
    const double s = std::sin(0.5 * offset_rad);
    return std::exp(-2.0 * concentration * s * s);
}

/// The chance of an offset in [-pi, offset], offset at or below 0: Gauss's rule of 20
/// points on panels of one width, over each of which the density is smooth to the last
/// digit.
double integrate_lower_half(double offset_rad, double concentration) {
    // Beyond 14 widths below the offset the density has fallen by e^-98 at least.
    constexpr double kReach = 14.0;
    const double width = std::min(1.0, 1.0 / std::sqrt(concentration));
    const double start = std::max(-kPi, offset_rad - kReach * width);
    const int panels = 1 + static_cast<int>((offset_rad - start) / width);
    const double panel = (offset_rad - start) / panels;
    const auto density = [&](double t) { return exp_of_cosine(t, concentration); };
    double area = 0.0;
    for (int i = 0; i < panels; ++i) {
        area += boost::math::quadrature::gauss<double, 20>::integrate(
            density, start + i * panel, start + (i + 1) * panel);
    }
    return area / (2.0 * kPi * scaled_bessel_0(concentration));
}

/// The offset at or below 0 with this share below it, by Newton on the logarithm of the
/// share, which stays well scaled in the far tail.
double solve_lower_half(double share, double concentration) {
    const double guess =
        base::lane::normal_quantile(share) / std::sqrt(concentration) * 0.999;
    const double start = std::clamp(guess, -0.999 * kPi, 0.0);
    const double target = std::log(share);
    const auto step = [&](double t) {
        const double below = integrate_lower_half(t, concentration);
        const double density = von_mises_density(t, concentration);
        return std::make_tuple(std::log(below) - target, density / below);
    };
    constexpr int kDigits = 46;
    std::uintmax_t steps = 60;
    return boost::math::tools::newton_raphson_iterate(step, start, -kPi, 0.0, kDigits,
                                                      steps);
}

}  // namespace

double von_mises_density(double offset_rad, double concentration) {
    FLATTAIL_EXPECTS(concentration > 0.0 && concentration <= 1e6);
    return exp_of_cosine(offset_rad, concentration) /
           (2.0 * kPi * scaled_bessel_0(concentration));
}

double von_mises_cdf(double offset_rad, double concentration) {
    const double offset = std::clamp(offset_rad, -kPi, kPi);
    if (offset <= 0.0) return integrate_lower_half(offset, concentration);
    return 1.0 - integrate_lower_half(-offset, concentration);
}

double von_mises_quantile(double share_below, double share_above, double concentration) {
    if (share_below == share_above) return 0.0;
    if (share_below < share_above) return solve_lower_half(share_below, concentration);
    return -solve_lower_half(share_above, concentration);
}

double von_mises_resultant(double concentration) {
    const double k = concentration;
    if (k <= kLargestExactBessel) {
        return boost::math::cyl_bessel_i(1, k) / boost::math::cyl_bessel_i(0, k);
    }
    const double x = 1.0 / k;
    return 1.0 - x * (1.0 / 2.0 + x * (1.0 / 8.0 + x * (1.0 / 8.0 + x * 25.0 / 128.0)));
}

}  // namespace flattail::chance
