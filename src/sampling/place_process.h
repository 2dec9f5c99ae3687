// Slow variation along the course (a rider's power, gusts): few numbers a day that keep
// the effect on the finish time right.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

#include "sampling/vector_math.h"

namespace flattail::sampling {

/// Numbers drawn per day and process.
constexpr int kPlaceModes = 8;

/// A stationary process of the place with mean 1: 1 + sum of sd_k z_k cos(k pi s / L).
///
/// What reaches the finish time is mostly the mean over the course, so the constant mode
/// carries exactly the variance that an Ornstein-Uhlenbeck process of the same spread and
/// length has in its mean over L; the other modes carry its projections, and average to
/// zero.
/// Accuracy: variance of the mean exact; the fine structure below L / 8 is left out
/// Source:  METHOD 9.3 (Ornstein-Uhlenbeck time average, closed form; cosine expansion)
class PlaceProcess {
  public:
    /// Range: sd >= 0 (share of the mean), length_m > 0, course_m > 0
    PlaceProcess(std::string_view name, double sd, double length_m, double course_m);

    /// Factors of one block of days at the given places.
    /// Shapes:  place_m[mark], out[mark * kLanes + lane]
    void fill(std::uint64_t seed, std::uint64_t first_day,
              const std::vector<double>& place_m, const VectorMath& math,
              double* out) const;

    /// Standard deviation of each mode.
    const std::array<double, kPlaceModes>& mode_sd() const { return mode_sd_; }

  private:
    std::uint32_t input_;
    double course_m_;
    std::array<double, kPlaceModes> mode_sd_{};
};

}  // namespace flattail::sampling
