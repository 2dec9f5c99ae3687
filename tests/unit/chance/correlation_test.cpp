#include "chance/correlation.h"

#include <limits>

#include "support/catch.h"

using namespace flattail::chance;

namespace {

using Fault = CorrelationFault;

const std::vector<double> kThree{1.0, 0.6, -0.3, 0.6, 1.0, 0.2, -0.3, 0.2, 1.0};

}  // namespace

TEST_CASE("a copy and a mirror image are correlations too") {
    CHECK(check_correlation({1, 1, -1, 1, 1, -1, -1, -1, 1}, 3).fault == Fault::kNone);
}

TEST_CASE("what keeps a matrix from being a correlation matrix is named with its place") {
    CHECK(check_correlation(kThree, 3).fault == Fault::kNone);
    CHECK(check_correlation({1, 0, 0}, 2).fault == Fault::kNotSquare);
    CHECK(check_correlation({}, 0).fault == Fault::kNotSquare);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK(check_correlation({1, nan, nan, 1}, 2).fault == Fault::kNotFinite);
    CHECK(check_correlation({1, 0.2, 0.3, 1}, 2).fault == Fault::kNotSymmetric);
    CHECK(check_correlation({1, 1.2, 1.2, 1}, 2).fault == Fault::kOutsideOne);
    const CorrelationCheck diagonal = check_correlation({1, 0, 0, 0.9}, 2);
    CHECK(diagonal.fault == Fault::kDiagonalNotOne);
    CHECK(diagonal.row == 1);
    CHECK(diagonal.column == 1);
}

TEST_CASE("entries that contradict each other are refused") {
    // 1 and 2 close, 2 and 3 close, 1 and 3 opposed. Eigenvalues 1.9, 1.9 and -0.8.
    const CorrelationCheck check =
        check_correlation({1, 0.9, -0.9, 0.9, 1, 0.9, -0.9, 0.9, 1}, 3);
    CHECK(check.fault == Fault::kNotPositiveDefinite);
    CHECK(check.smallest_eigenvalue == Approx(-0.8).epsilon(1e-12));
}
