// Dependence between inputs: a Gaussian copula over normal scores.
#pragma once

#include <vector>

namespace flattail::sampling {

enum class CorrelationFault {
    kNone,
    kNotSquare,
    kNotFinite,
    kDiagonalNotOne,
    kNotSymmetric,
    kOutsideOne,          // an entry beyond -1 or 1
    kNotPositiveDefinite  // the entries contradict each other
};

/// What keeps a matrix (row by row) from being a correlation matrix of `size` inputs.
struct CorrelationCheck {
    CorrelationFault fault = CorrelationFault::kNone;
    /// The place of the offending entry, where there is one.
    int row = 0;
    int column = 0;
    /// The smallest eigenvalue, once the entries themselves are in order.
    double smallest_eigenvalue = 0.0;
};

CorrelationCheck check_correlation(const std::vector<double>& matrix, int size);

/// Makes independent normal scores dependent. Each input stays standard normal.
/// Source:  Gaussian copula (Nelsen 2006, section 2.3); Cholesky factor L, z = L e
class CorrelatedScores {
  public:
    /// `matrix` must pass check_correlation. Semi-definite ones (an exact copy of an
    /// input) are allowed.
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
