// Elementary functions for loops over lanes: branch-free, no libm, same bits everywhere.
//
// Sources compiled for several instruction sets include this header, so every function
// has internal linkage and is always inlined: no code built for a wider processor can be
// picked by the linker for a narrower one. Only + - * / sqrt and integer operations are
// used; with -ffp-contract=off each of them rounds alike on every machine. Nothing here
// sets errno.
#pragma once

#include <cstdint>

#define FLATTAIL_LANE static inline __attribute__((always_inline))

namespace flattail::base::lane {

constexpr double kPi = 3.14159265358979323846;
constexpr double kTwoPi = 6.28318530717958647693;

FLATTAIL_LANE std::uint64_t bits_of(double x) {
    return __builtin_bit_cast(std::uint64_t, x);
}

FLATTAIL_LANE double double_of(std::uint64_t bits) {
    return __builtin_bit_cast(double, bits);
}

// Adding 1.5 x 2^52 leaves the nearest whole number in the low bits of the sum; taking it
// off again gives that number as a double. Needs |x| < 2^51 and no conversion
// instruction, which AVX2 lacks for 64-bit integers.
constexpr double kRounder = 6755399441055744.0;

/// The whole number nearest to x (ties to even).
/// Range:   |x| < 2^51
FLATTAIL_LANE double round_to_whole(double x) { return (x + kRounder) - kRounder; }

FLATTAIL_LANE double smaller_of(double a, double b) { return a < b ? a : b; }

FLATTAIL_LANE double larger_of(double a, double b) { return a > b ? a : b; }

// ln 2 in two parts; the first ends in 32 zero bits, so that k x kLn2High is exact.
constexpr double kLn2High = 6.93147180369123816490e-01;
constexpr double kLn2Low = 1.90821492927058770002e-10;

/// ln(1 + f) for a reduced argument, plus the parts of k ln 2.
FLATTAIL_LANE double add_log_parts(double f, double k) {
    const double s = f / (2.0 + f);
    const double z = s * s;
    // Minimax coefficients of (ln((1+s)/(1-s)) - 2s)/s, fdlibm (Sun Microsystems 1993).
    double p = 1.479819860511658591e-01;
    p = p * z + 1.531383769920937332e-01;
    p = p * z + 1.818357216161805012e-01;
    p = p * z + 2.222219843214978396e-01;
    p = p * z + 2.857142874366239149e-01;
    p = p * z + 3.999999999940941908e-01;
    p = p * z + 6.666666666666735130e-01;
    const double half_square = 0.5 * f * f;
    return k * kLn2High - ((half_square - (s * (half_square + z * p) + k * kLn2Low)) - f);
}

/// Natural logarithm.
/// Range:   normal x > 0 (2.3e-308 to 1.8e308); anything else gives a meaningless number
/// Accuracy: 1 unit in the last place (2.3e-16 relative)
/// Source:  reduction to [sqrt(1/2), sqrt(2)) and series in f/(2+f), fdlibm (Sun 1993)
FLATTAIL_LANE double log(double x) {
    constexpr std::uint64_t kRootHalf = 0x3FE6A09E667F3BCDu;
    constexpr std::uint64_t kOne = 0x3FF0000000000000u;
    constexpr std::uint64_t kMantissa = 0x000FFFFFFFFFFFFFu;
    const std::uint64_t shifted = bits_of(x) + (kOne - kRootHalf);
    // The biased exponent, read as the low bits of a double near 2^52.
    const double k =
        double_of((shifted >> 52) | 0x4330000000000000u) - (4503599627370496.0 + 1023.0);
    const double m = double_of((shifted & kMantissa) + kRootHalf);
    return add_log_parts(m - 1.0, k);
}

/// ln(1 + x), exact in the small where 1 + x is not.
/// Range:   -1 < x < 1e300
/// Accuracy: 4e-16 relative
/// Source:  correction for the rounding of 1 + x (Higham 2002, section 1.14.1)
FLATTAIL_LANE double log_one_plus(double x) {
    const double sum = 1.0 + x;
    return log(sum) + (x - (sum - 1.0)) / sum;
}

/// e^x.
/// Range:   any x; below -708 it stays at e^-708, above 709 at e^709
/// Accuracy: 3e-16 relative
/// Source:  x = k ln 2 + r, Taylor series to r^13 (remainder 5e-18 at r = ln(2)/2)
FLATTAIL_LANE double exp(double x) {
    constexpr double kOneOverLn2 = 1.44269504088896340736;
    const double bounded = smaller_of(larger_of(x, -708.0), 709.0);
    const double rounded = bounded * kOneOverLn2 + kRounder;
    const double k = rounded - kRounder;
    const double r = (bounded - k * kLn2High) - k * kLn2Low;
    double p = 1.0 / 6227020800.0;
    p = p * r + 1.0 / 479001600.0;
    p = p * r + 1.0 / 39916800.0;
    p = p * r + 1.0 / 3628800.0;
    p = p * r + 1.0 / 362880.0;
    p = p * r + 1.0 / 40320.0;
    p = p * r + 1.0 / 5040.0;
    p = p * r + 1.0 / 720.0;
    p = p * r + 1.0 / 120.0;
    p = p * r + 1.0 / 24.0;
    p = p * r + 1.0 / 6.0;
    p = p * r + 0.5;
    const double grown = 1.0 + (r + r * r * p);
    return double_of(bits_of(grown) + (bits_of(rounded) << 52));
}

/// x^y as exp(y ln x).
/// Range:   normal x > 0, |y ln x| <= 708
/// Accuracy: (4 + 2 |y ln x|) 1e-16 relative
FLATTAIL_LANE double power(double x, double y) { return exp(y * log(x)); }

struct SinCos {
    double sin;
    double cos;
};

/// Sine and cosine of an angle given in turns, sin(2 pi x) and cos(2 pi x).
/// Range:   |x| < 2^48
/// Accuracy: 3e-16 absolute
/// Source:  exact reduction to an eighth of a turn, Taylor series to the 15th and 16th
/// power
FLATTAIL_LANE SinCos sin_cos_turns(double x) {
    const double quarters = 4.0 * x;
    const double rounded = quarters + kRounder;
    const double angle = (quarters - (rounded - kRounder)) * (0.5 * kPi);
    const std::uint64_t quadrant = bits_of(rounded);
    const double z = angle * angle;
    double s = -1.0 / 1307674368000.0;
    s = s * z + 1.0 / 6227020800.0;
    s = s * z - 1.0 / 39916800.0;
    s = s * z + 1.0 / 362880.0;
    s = s * z - 1.0 / 5040.0;
    s = s * z + 1.0 / 120.0;
    s = s * z - 1.0 / 6.0;
    const double sine = angle + angle * (z * s);
    double c = 1.0 / 20922789888000.0;
    c = c * z - 1.0 / 87178291200.0;
    c = c * z + 1.0 / 479001600.0;
    c = c * z - 1.0 / 3628800.0;
    c = c * z + 1.0 / 40320.0;
    c = c * z - 1.0 / 720.0;
    c = c * z + 1.0 / 24.0;
    const double cosine = 1.0 - (0.5 * z - z * (z * c));
    const bool swapped = (quadrant & 1u) != 0;
    const double near_sine = swapped ? cosine : sine;
    const double near_cosine = swapped ? sine : cosine;
    return {double_of(bits_of(near_sine) ^ ((quadrant & 2u) << 62)),
            double_of(bits_of(near_cosine) ^ (((quadrant + 1u) & 2u) << 62))};
}

/// An angle brought into [0, 2 pi).
/// Range:   |angle_rad| < 1e15
/// Accuracy: 4e-16 x (1 + |angle_rad|)
FLATTAIL_LANE double wrap_angle(double angle_rad) {
    const double turns = round_to_whole(angle_rad * (1.0 / kTwoPi));
    const double centred = angle_rad - turns * kTwoPi;
    const double lifted = centred < 0.0 ? centred + kTwoPi : centred;
    return lifted < kTwoPi ? lifted : 0.0;
}

/// Weibull value at share u: scale (-ln(1-u))^(1/shape).
/// Range:   0 < u < 1
FLATTAIL_LANE double weibull_quantile(double u, double one_over_shape, double scale) {
    return scale * power(-log_one_plus(-u), one_over_shape);
}

/// Triangular value at share u.
/// Range:   0 < u < 1, low <= mode <= high, low < high
FLATTAIL_LANE double triangular_quantile(double u, double low, double mode, double high) {
    const double width = high - low;
    const double rising = low + __builtin_sqrt(u * width * (mode - low));
    const double falling = high - __builtin_sqrt((1.0 - u) * width * (high - mode));
    return u * width < mode - low ? rising : falling;
}

}  // namespace flattail::base::lane
