#include "sampling/correlated.h"

#include <Eigen/Eigenvalues>
#include <cmath>

#include "base/expects.h"
#include "sampling/address.h"

namespace flattail::sampling {
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

// Cholesky by rows. A pivot that vanishes (an input that others already determine) leaves
// its column empty. Each row is scaled to length one, so rounding cannot inflate an
// input.
CorrelatedScores::CorrelatedScores(const std::vector<double>& entries, int size)
    : size_(size) {
    FLATTAIL_EXPECTS(check_correlation(entries, size).fault == CorrelationFault::kNone);
    const View matrix(entries.data(), size, size);
    Matrix factor = Matrix::Zero(size, size);
    for (int row = 0; row < size; ++row) {
        for (int column = 0; column < row; ++column) {
            const double pivot = factor(column, column);
            const double rest =
                matrix(row, column) -
                factor.row(row).head(column).dot(factor.row(column).head(column));
            factor(row, column) = pivot > 0.0 ? rest / pivot : 0.0;
        }
        const double rest = 1.0 - factor.row(row).head(row).squaredNorm();
        factor(row, row) = rest > kEigenvalueSlack ? std::sqrt(rest) : 0.0;
        factor.row(row).head(row + 1).normalize();
        for (int column = 0; column <= row; ++column)
            factor_.push_back(factor(row, column));
    }
}

// From the last input to the first: a row needs only inputs up to its own, which are
// still independent then.
void CorrelatedScores::apply(double* const* blocks) const {
    for (int row = size_ - 1; row >= 0; --row) {
        const double* weight = factor_.data() + row * (row + 1) / 2;
        double* out = blocks[row];
        for (int lane = 0; lane < kLanes; ++lane) out[lane] *= weight[row];
        for (int column = 0; column < row; ++column) {
            const double* in = blocks[column];
            for (int lane = 0; lane < kLanes; ++lane)
                out[lane] += weight[column] * in[lane];
        }
    }
}

}  // namespace flattail::sampling
