// A distribution made ready for filling blocks of lanes.
#pragma once

#include <cstdint>
#include <vector>

#include "chance/distribution.h"
#include "chance/quantile_shares.h"
#include "sampling/vector_math.h"

namespace flattail::sampling {

/// Scores between these read the cubics; uniforms of the generator never leave them
/// (2^-53 is the score -8.21).
constexpr double kLastTabledScore = 8.5;
/// Cells of the cubics. Twice as many divide the interpolation error by 16.
constexpr int kScoreCells = 1024;

/// Turns blocks of uniforms or normal scores into values, rising with both (directions:
/// up to whole turns).
/// Accuracy: same bits on every instruction set. Gamma and beta (within 1e-8 sd) and von
///          Mises (within 1e-6 sd) go through cubics in the normal score, exact beyond
///          them. From uniforms, all other shapes give quantile() to the bit;
///          samples give their rows in order
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
    bool is_tabled() const { return !coefficients_.empty(); }
    bool reads_scores() const;
    void map_scores(const double* z, double* out) const;
    void map_uniforms(const double* u, double* out) const;
    void read_cells(const double* z, double* out) const;

    Distribution distribution_;
    const VectorMath* math_;
    bool is_bounded_;
    chance::KeptShare kept_;
    std::vector<double> coefficients_;
};

}  // namespace flattail::sampling
