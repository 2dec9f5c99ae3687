#include "sampling/place_process.h"

#include <algorithm>
#include <cmath>

#include "sampling/address.h"

namespace flattail::sampling {

namespace {

constexpr double kPi = 3.14159265358979323846;

// A factor never leaves these bounds, however wild the day: 6 sd of the defaults.
constexpr double kLeastFactor = 0.3;
constexpr double kMostFactor = 2.5;

// Variance of the projection of exp(-|s - t| / length) on sqrt(2) cos(k pi s / L) (k > 0)
// or on 1 (k = 0), both over [0, L], as a share of the process's own variance:
//   k = 0:  2 r [1 - r (1 - e^(-1/r))],  r = length / L
//   k > 0:  2 r / (1 + w^2) - 4 r^2 (1 - (-1)^k e^(-1/r)) / (1 + w^2)^2,  w = k pi r
// Both by integrating the cosines against the kernel twice; checked against quadrature.
double compute_mode_variance(int k, double r) {
    const double e = std::exp(-1.0 / r);
    if (k == 0) return 2.0 * r * (1.0 - r * (1.0 - e));
    const double w = k * kPi * r;
    const double sign = k % 2 == 0 ? 1.0 : -1.0;
    const double ends = 2.0 * (1.0 - sign * e) * r * r / ((1.0 + w * w) * (1.0 + w * w));
    return 2.0 * r / (1.0 + w * w) - 2.0 * ends;
}

}  // namespace

PlaceProcess::PlaceProcess(std::string_view name, double sd, double length_m,
                           double course_m)
    : input_(hash_input_name(name)), course_m_(course_m) {
    const double ratio = length_m / course_m;
    for (int k = 0; k < kPlaceModes; ++k) {
        const double share = std::max(compute_mode_variance(k, ratio), 0.0);
        mode_sd_[static_cast<std::size_t>(k)] = sd * std::sqrt(share);
    }
}

void PlaceProcess::fill(std::uint64_t seed, std::uint64_t first_day,
                        const std::vector<double>& place_m, const VectorMath& math,
                        double* out) const {
    double score[kPlaceModes][kLanes];
    for (int k = 0; k < kPlaceModes; ++k) {
        math.fill_normal(Stream{seed, input_, static_cast<std::uint32_t>(k)}, first_day,
                         score[k]);
    }
    for (std::size_t m = 0; m < place_m.size(); ++m) {
        double* row = out + m * kLanes;
        double weight[kPlaceModes];
        for (int k = 0; k < kPlaceModes; ++k) {
            const double cosine = std::cos(k * kPi * place_m[m] / course_m_);
            const double norm = k == 0 ? 1.0 : std::sqrt(2.0);
            weight[k] = norm * mode_sd_[static_cast<std::size_t>(k)] * cosine;
        }
        math.combine_modes(ModeSum{1.0, kPlaceModes, weight, &score[0][0]}, row);
        for (int j = 0; j < kLanes; ++j)
            row[j] = std::clamp(row[j], kLeastFactor, kMostFactor);
    }
}

}  // namespace flattail::sampling
