// Every function of the lanes is held against the extended-precision functions of the C
// library or Boost.Math in 80-bit arithmetic (their own error is below 1e-18 relative),
// and must stay within the bound that its docstring states.
#include "base/lane_math.h"

#include <algorithm>
#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <cstdint>

#include "base/lane_normal.h"
#include "support/catch.h"

namespace lane = flattail::base::lane;

namespace {

constexpr int kPoints = 40000;
constexpr long double kPiLong = 3.14159265358979323846264338328L;

enum class Scale { kEven, kLogarithmic };

/// The largest error over points from low to high; `floor` is the size below which the
/// error counts as absolute.
template <class Function, class Reference>
double measure_error(double low, double high, Scale scale, double floor,
                     Function function, Reference reference) {
    double worst = 0.0;
    for (int i = 0; i < kPoints; ++i) {
        // The golden ratio's multiples fill the range evenly without a grid.
        const double share = std::fmod(0.5 + i * 0.6180339887498949, 1.0);
        const double x = scale == Scale::kEven ? low + share * (high - low)
                                               : low * std::pow(high / low, share);
        const long double exact = reference(static_cast<long double>(x));
        const long double size =
            std::max(std::abs(exact), static_cast<long double>(floor));
        const auto error = static_cast<double>(
            std::abs(static_cast<long double>(function(x)) - exact) / size);
        worst = std::max(worst, error);
    }
    return worst;
}

long double find_exact_quantile(long double p) {
    const long double root2 = std::sqrt(2.0L);
    return p < 0.5L ? -root2 * boost::math::erfc_inv(2.0L * p)
                    : root2 * boost::math::erfc_inv(2.0L * (1.0L - p));
}

long double find_exact_share(long double z) {
    return 0.5L * boost::math::erfc(-z / std::sqrt(2.0L));
}

constexpr double kTiny = 1e-300;

}  // namespace

TEST_CASE("the logarithm stays within its bound") {
    const auto exact = [](long double x) { return std::log(x); };
    const auto log = [](double x) { return lane::log(x); };
    const double wide =
        measure_error(2.3e-308, 1.7e308, Scale::kLogarithmic, kTiny, log, exact);
    const double near_one = measure_error(0.5, 2.0, Scale::kEven, kTiny, log, exact);
    CAPTURE(wide, near_one);
    CHECK(wide <= 2.3e-16);
    CHECK(near_one <= 2.3e-16);
    CHECK(lane::log(1.0) == 0.0);
}

TEST_CASE("the logarithm of one plus a small number keeps its digits") {
    const auto exact = [](long double x) { return std::log1p(x); };
    const auto log = [](double x) { return lane::log_one_plus(x); };
    const double small =
        measure_error(1e-20, 0.9, Scale::kLogarithmic, kTiny, log, exact);
    const double negative = measure_error(
        1e-20, 0.999, Scale::kLogarithmic, kTiny,
        [](double x) { return lane::log_one_plus(-x); },
        [](long double x) { return std::log1p(-x); });
    CAPTURE(small, negative);
    CHECK(small <= 4e-16);
    CHECK(negative <= 4e-16);
}

TEST_CASE("the exponential stays within its bound and at its ends") {
    const double error = measure_error(
        -708.0, 709.0, Scale::kEven, kTiny, [](double x) { return lane::exp(x); },
        [](long double x) { return std::exp(x); });
    const double middle = measure_error(
        -1.0, 1.0, Scale::kEven, kTiny, [](double x) { return lane::exp(x); },
        [](long double x) { return std::exp(x); });
    CAPTURE(error, middle);
    CHECK(error <= 3e-16);
    CHECK(middle <= 3e-16);
    CHECK(lane::exp(0.0) == 1.0);
    CHECK(lane::exp(-1e9) == lane::exp(-708.0));
    CHECK(lane::exp(1e9) == lane::exp(709.0));
}

TEST_CASE("powers err by no more than the growth of their logarithm allows") {
    for (const double y : {-3.0, -0.5, 0.37, 1.0, 2.0, 6.5}) {
        const double error = measure_error(
            0.01, 100.0, Scale::kLogarithmic, kTiny,
            [y](double x) { return lane::power(x, y); },
            [y](long double x) { return std::pow(x, static_cast<long double>(y)); });
        CAPTURE(y, error);
        CHECK(error <= (4.0 + 2.0 * std::abs(y) * std::log(100.0)) * 1e-16);
    }
}

TEST_CASE("sine and cosine of turns stay within their bound") {
    const auto sine = [](double x) { return lane::sin_cos_turns(x).sin; };
    const auto cosine = [](double x) { return lane::sin_cos_turns(x).cos; };
    const auto exact_sine = [](long double x) {
        return std::sin(2.0L * kPiLong * std::fmod(x, 1.0L));
    };
    const auto exact_cosine = [](long double x) {
        return std::cos(2.0L * kPiLong * std::fmod(x, 1.0L));
    };
    for (const double reach : {1.0, 1e6}) {
        const double s =
            measure_error(-reach, reach, Scale::kEven, 1.0, sine, exact_sine);
        const double c =
            measure_error(-reach, reach, Scale::kEven, 1.0, cosine, exact_cosine);
        CAPTURE(reach, s, c);
        CHECK(s <= 3e-16);
        CHECK(c <= 3e-16);
    }
    CHECK(lane::sin_cos_turns(0.25).sin == 1.0);
    CHECK(lane::sin_cos_turns(0.25).cos == 0.0);
    CHECK(lane::sin_cos_turns(-0.5).cos == -1.0);
    CHECK(lane::sin_cos_turns(1000.75).sin == -1.0);
}

TEST_CASE("the normal quantile stays within its bound from centre to far tail") {
    const auto quantile = [](double p) { return lane::normal_quantile(p); };
    const double lower = measure_error(1e-300, 0.5, Scale::kLogarithmic, 1.0, quantile,
                                       find_exact_quantile);
    const double whole =
        measure_error(1e-9, 1.0 - 1e-9, Scale::kEven, 1.0, quantile, find_exact_quantile);
    CAPTURE(lower, whole);
    CHECK(lower <= 1e-15);
    CHECK(whole <= 1e-15);
    // Any table of the normal distribution.
    CHECK(lane::normal_quantile(0.5) == 0.0);
    CHECK(lane::normal_quantile(0.975) == Approx(1.959963984540054).epsilon(1e-15));
    CHECK(lane::normal_quantile(0x1p-53) == -lane::normal_quantile(1.0 - 0x1p-53));
}

TEST_CASE("the normal share below a score keeps its digits in the lower tail") {
    const auto share = [](double z) { return lane::normal_cdf(z); };
    const double lower =
        measure_error(-10.0, 0.0, Scale::kEven, kTiny, share, find_exact_share);
    const double far =
        measure_error(-37.0, -10.0, Scale::kEven, kTiny, share, find_exact_share);
    const double upper =
        measure_error(0.0, 10.0, Scale::kEven, 1.0, share, find_exact_share);
    CAPTURE(lower, far, upper);
    CHECK(lower <= 1e-15);
    CHECK(far <= 2e-15);
    CHECK(upper <= 2.3e-16);
    CHECK(lane::normal_cdf(0.0) == 0.5);
    CHECK(lane::normal_cdf(-1e9) < 1e-300);
    CHECK(lane::normal_cdf(1e9) == 1.0);
}

TEST_CASE("angles are wrapped into one turn") {
    for (int i = 0; i < kPoints; ++i) {
        const double angle = -1000.0 + 0.05 * i;
        const double wrapped = lane::wrap_angle(angle);
        CAPTURE(angle, wrapped);
        REQUIRE((wrapped >= 0.0 && wrapped < lane::kTwoPi));
        REQUIRE(std::cos(wrapped) == Approx(std::cos(angle)).margin(4e-13));
        REQUIRE(std::sin(wrapped) == Approx(std::sin(angle)).margin(4e-13));
    }
    CHECK(lane::wrap_angle(-1e-300) == 0.0);
}
