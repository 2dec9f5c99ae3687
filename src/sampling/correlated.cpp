#include "sampling/correlated.h"

#include <Eigen/Core>
#include <cmath>

#include "base/expects.h"
#include "chance/correlation.h"
#include "sampling/address.h"

namespace flattail::sampling {
namespace {

// A pivot below this is rounding: the input is a copy of others.
constexpr double kPivotSlack = 1e-10;

using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
using View = Eigen::Map<const Matrix>;

}  // namespace

// Cholesky by rows. A pivot that vanishes (an input that others already determine) leaves
// its column empty. Each row is scaled to length one, so rounding cannot inflate an
// input.
CorrelatedScores::CorrelatedScores(const std::vector<double>& entries, int size)
    : size_(size) {
    FLATTAIL_EXPECTS(chance::check_correlation(entries, size).fault ==
                     chance::CorrelationFault::kNone);
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
        factor(row, row) = rest > kPivotSlack ? std::sqrt(rest) : 0.0;
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
