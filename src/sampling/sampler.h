// A distribution made ready for filling blocks of lanes.
#pragma once

#include <cstdint>
#include <vector>

#include "sampling/distribution.h"
#include "sampling/vector_math.h"

namespace flattail::sampling {

/// Turns blocks of uniforms or normal scores into values, rising with both (directions:
/// up to whole turns). Accuracy: same bits on every instruction set. Gamma, beta and von
/// Mises go through cubics
///          over 1024 cells of the normal score in [-8.5, 8.5]: within 1e-6 sd of
///          quantile(); scores beyond are computed exactly. All other shapes give
///          quantile() to the bit.
class Sampler {
  public:
    Sampler(Distribution distribution, const VectorMath& math);

    /// Values of the days first_day, first_day + 1, ...
    void fill(const Stream& stream, std::uint64_t first_day, double* out) const;
    /// Values of the days day[0], day[1], ...
    void fill_at(const Stream& stream, const std::uint64_t* day, double* out) const;
    /// Values of kLanes uniforms in (0, 1); `out` may be `u`.
    void fill_from_uniforms(const double* u, double* out) const;
    /// Values of kLanes standard normal scores; `out` may be `z`.
    void fill_from_scores(const double* z, double* out) const;
    /// The value of a single uniform, to the bit as in a block.
    double value_of(double u) const;

    const Distribution& distribution() const { return distribution_; }

  private:
    enum class Path { kScores, kUniforms };

    void map_scores(const double* z, double* out) const;
    void map_uniforms(const double* u, double* out) const;
    void map_table(const double* z, double* out) const;
    void pick_samples(const double* u, double* out) const;
    void read_table(const double* u, double* out) const;
    CubicCells cells() const;

    Distribution distribution_;
    const VectorMath* math_;
    Path path_;
    double share_below_ = 0.0;   // F(lower)
    double share_within_ = 1.0;  // F(upper) - F(lower)
    std::vector<double> coefficients_;
};

}  // namespace flattail::sampling
