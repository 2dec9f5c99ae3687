// What a correlation matrix must be, before anything is drawn with it.
#pragma once

#include <vector>

namespace flattail::chance {

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

}  // namespace flattail::chance
