#include "chance/correlation.h"

#include <Eigen/Eigenvalues>
#include <cmath>

namespace flattail::chance {

namespace {

// Matrices are written by hand with two or three digits; what falls below zero by less
// than this is rounding, not contradiction.
constexpr double kEigenvalueSlack = 1e-10;
constexpr double kEntrySlack = 1e-12;

using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
using View = Eigen::Map<const Matrix>;

CorrelationFault find_entry_fault(const View& matrix, int row, int column) {
    const double entry = matrix(row, column);
    if (!std::isfinite(entry)) return CorrelationFault::kNotFinite;
    if (row == column && std::abs(entry - 1.0) > kEntrySlack) {
        return CorrelationFault::kDiagonalNotOne;
    }
    if (std::abs(entry) > 1.0 + kEntrySlack) return CorrelationFault::kOutsideOne;
    if (std::abs(entry - matrix(column, row)) > kEntrySlack) {
        return CorrelationFault::kNotSymmetric;
    }
    return CorrelationFault::kNone;
}

}  // namespace

CorrelationCheck check_correlation(const std::vector<double>& entries, int size) {
    CorrelationCheck check;
    if (size < 1 || entries.size() !=
                        static_cast<std::size_t>(size) * static_cast<std::size_t>(size)) {
        check.fault = CorrelationFault::kNotSquare;
        return check;
    }
    const View matrix(entries.data(), size, size);
    for (int row = 0; row < size; ++row) {
        for (int column = 0; column <= row; ++column) {
            check.fault = find_entry_fault(matrix, row, column);
            if (check.fault == CorrelationFault::kNone) continue;
            check.row = row;
            check.column = column;
            return check;
        }
    }
    const Eigen::SelfAdjointEigenSolver<Matrix> solver(matrix, Eigen::EigenvaluesOnly);
    check.smallest_eigenvalue = solver.eigenvalues().minCoeff();
    if (check.smallest_eigenvalue < -kEigenvalueSlack) {
        check.fault = CorrelationFault::kNotPositiveDefinite;
    }
    return check;
}

}  // namespace flattail::chance
