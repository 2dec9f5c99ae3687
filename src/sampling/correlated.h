// Dependence between inputs: a Gaussian copula over normal scores.
#pragma once

#include <vector>

namespace flattail::sampling {

/// Makes independent normal scores dependent. Each input stays standard normal.
/// Source:  Gaussian copula (Nelsen 2006, section 2.3); Cholesky factor L, z = L e
class CorrelatedScores {
  public:
    /// `matrix` must pass chance::check_correlation. Semi-definite ones (an exact copy of
    /// an input) are allowed.
    CorrelatedScores(const std::vector<double>& matrix, int size);

    int size() const { return size_; }

    /// Replaces blocks[input], kLanes independent scores each, by dependent ones, in
    /// place.
    void apply(double* const* blocks) const;

  private:
    int size_;
    std::vector<double> factor_;  // lower triangle, row by row
};

}  // namespace flattail::sampling
