// The shape of the sampling error of a weighted mean: how wide, how lopsided, how well
// known.
#pragma once

#include <array>
#include <cstdint>

#include "base/expects.h"

namespace flattail::findings {

/// Moments of a sum of terms drawn inside strata of fixed size, each about its stratum's
/// mean.
/// Accuracy: higher moments of few terms of very unlike size come out too small, as they
///           do in any sample
/// Source: METHOD 10.34
class ErrorShape {
  public:
    void add(std::uint8_t stratum, double term) {
        FLATTAIL_EXPECTS(stratum < parts_.size());
        Part& part = parts_[stratum];
        const double square = term * term;
        part.count += 1;
        part.sum += term;
        part.squares += square;
        part.cubes += square * term;
        part.fourths += square * square;
    }
    void add(const ErrorShape& other);

    double variance() const;
    /// Third moment over the 3/2 power of the variance; 0 where nothing varies.
    double skewness() const;
    /// Degrees of freedom that the variance is known with, beyond what it shares with the
    /// sum itself (a count knows its variance); infinite where it shares all.
    double freedom() const;

  private:
    struct Part {
        double count = 0, sum = 0, squares = 0, cubes = 0, fourths = 0;
    };
    double third() const;
    double fourth() const;
    std::array<Part, 8> parts_{};
};

}  // namespace flattail::findings
