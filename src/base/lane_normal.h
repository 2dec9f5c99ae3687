// The normal distribution for loops over lanes: quantile and distribution function.
// Linkage, rounding and use are those of base/lane_math.h.
#pragma once

#include <cstddef>

#include "base/lane_math.h"

namespace flattail::base::lane {

/// A polynomial with its highest coefficient first, by Horner's rule.
template <std::size_t kCount>
FLATTAIL_LANE double evaluate_polynomial(const double (&highest_first)[kCount],
                                         double x) {
    double sum = highest_first[0];
    for (std::size_t i = 1; i < kCount; ++i) sum = sum * x + highest_first[i];
    return sum;
}

struct Ratio {
    double above;
    double below;
};

// Wichura's three rational approximations. Each pair stays unevaluated, so that a lane
// pays for one division only.
FLATTAIL_LANE Ratio quantile_centre(double q) {
    constexpr double a[] = {2509.0809287301226727, 33430.575583588128105,
                            67265.770927008700853, 45921.953931549871457,
                            13731.693765509461125, 1971.5909503065514427,
                            133.14166789178437745, 3.387132872796366608};
    constexpr double b[] = {5226.495278852854561,  28729.085735721942674,
                            39307.89580009271061,  21213.794301586595867,
                            5394.1960214247511077, 687.1870074920579083,
                            42.313330701600911252, 1.0};
    const double r = 0.180625 - q * q;
    return {q * evaluate_polynomial(a, r), evaluate_polynomial(b, r)};
}

FLATTAIL_LANE Ratio quantile_tail(double root_log) {
    constexpr double c[] = {7.7454501427834140764e-4, 0.0227238449892691845833,
                            0.24178072517745061177,   1.27045825245236838258,
                            3.64784832476320460504,   5.7694972214606914055,
                            4.6303378461565452959,    1.42343711074968357734};
    constexpr double d[] = {1.05075007164441684324e-9, 5.475938084995344946e-4,
                            0.0151986665636164571966,  0.14810397642748007459,
                            0.68976733498510000455,    1.6763848301838038494,
                            2.05319162663775882187,    1.0};
    const double r = root_log - 1.6;
    return {evaluate_polynomial(c, r), evaluate_polynomial(d, r)};
}

FLATTAIL_LANE Ratio quantile_far_tail(double root_log) {
    constexpr double e[] = {2.01033439929228813265e-7, 2.71155556874348757815e-5,
                            0.0012426609473880784386,  0.026532189526576123093,
                            0.29656057182850489123,    1.7848265399172913358,
                            5.4637849111641143699,     6.6579046435011037772};
    constexpr double f[] = {2.04426310338993978564e-15, 1.4215117583164458887e-7,
                            1.8463183175100546818e-5,   7.868691311456132591e-4,
                            0.0148753612908506148525,   0.13692988092273580531,
                            0.59983220655588793769,     1.0};
    const double r = root_log - 5.0;
    return {evaluate_polynomial(e, r), evaluate_polynomial(f, r)};
}

/// Root of -ln of the share that lies towards the nearer end.
FLATTAIL_LANE double find_root_log(double p) {
    return __builtin_sqrt(-log(p < 0.5 ? p : 1.0 - p));
}

// Beyond this root the share towards the end is below e^-25 = 1.4e-11.
constexpr double kFarRootLog = 5.0;

/// The normal quantile where find_root_log(p) is at most kFarRootLog.
FLATTAIL_LANE double normal_quantile_near(double p, double root_log) {
    const double q = p - 0.5;
    const Ratio centre = quantile_centre(q);
    const Ratio tail = quantile_tail(root_log);
    const bool is_central = (q < 0.0 ? -q : q) <= 0.425;
    const double above = is_central ? centre.above : (q < 0.0 ? -tail.above : tail.above);
    return above / (is_central ? centre.below : tail.below);
}

/// The normal quantile where find_root_log(p) is above kFarRootLog.
FLATTAIL_LANE double normal_quantile_far(double p, double root_log) {
    const Ratio tail = quantile_far_tail(root_log);
    return (p < 0.5 ? -tail.above : tail.above) / tail.below;
}

/// The normal score below which a share p of a standard normal lies.
/// Range:   2.3e-308 <= p < 1
/// Accuracy: 1e-15 x max(1, |score|); antisymmetric to the last bit where 1 - p is exact
/// Source:  Wichura 1988, Algorithm AS 241 (PPND16), Applied Statistics 37:477-484
FLATTAIL_LANE double normal_quantile(double p) {
    const double root_log = find_root_log(p);
    const double near = normal_quantile_near(p, root_log);
    const double far = normal_quantile_far(p, root_log);
    return root_log > kFarRootLog ? far : near;
}

/// e^(-z^2/2) with the square taken in two parts, so that its rounding is not magnified.
FLATTAIL_LANE double exp_of_half_square(double z) {
    // z cut to sixteenths: its square is exact.
    const double coarse = round_to_whole(z * 16.0) * 0.0625;
    const double rest = (z - coarse) * (z + coarse);
    return exp(-0.5 * (coarse * coarse)) * exp(-0.5 * rest);
}

/// The share of a standard normal that lies below z.
/// Range:   any z; below -37.5 it stays near 1e-308
/// Accuracy: 1e-15 relative for z >= -10 (upper tail: 1.2e-16 absolute)
/// Source:  Cody 1969, Math. Comp. 23:631-637, rational Chebyshev approximations
FLATTAIL_LANE double normal_cdf(double z) {
    constexpr double a[] = {0.065682337918207449113, 2.2352520354606839287,
                            161.02823106855587881, 1067.6894854603709582,
                            18154.981253343561249};
    constexpr double b[] = {1.0, 47.20258190468824187, 976.09855173777669322,
                            10260.932208618978205, 45507.789335026729956};
    constexpr double c[] = {
        1.0765576773720192317e-8, 0.39894151208813466764, 8.8831497943883759412,
        93.506656132177855979,    597.27027639480026226,  2494.5375852903726711,
        6848.1904505362823326,    11602.651437647350124,  9842.7148383839780218};
    constexpr double d[] = {1.0,
                            22.266688044328115691,
                            235.38790178262499861,
                            1519.377599407554805,
                            6485.558298266760755,
                            18615.571640885098091,
                            34900.952721145977266,
                            38912.003286093271411,
                            19685.429676859990727};
    constexpr double p[] = {0.02307344176494017303,  0.21589853405795699,
                            0.1274011611602473639,   0.022235277870649807,
                            0.001421619193227893466, 2.9112874951168792e-5};
    constexpr double q[] = {1.0,
                            1.28426009614491121,
                            0.468238212480865118,
                            0.0659881378689285515,
                            0.00378239633202758244,
                            7.29751555083966205e-5};
    constexpr double kOneOverRootTwoPi = 0.398942280401432677940;
    constexpr double kRoot32 = 5.656854249492380195206;
    constexpr double kFarthest = 37.5;
    const double size = smaller_of(z < 0.0 ? -z : z, kFarthest);
    const double square = size * size;
    const double centre =
        0.5 + z * evaluate_polynomial(a, square) / evaluate_polynomial(b, square);
    const double inverse = 1.0 / larger_of(square, 1.0);
    const double far_ratio =
        inverse * evaluate_polynomial(p, inverse) / evaluate_polynomial(q, inverse);
    const double far_factor = (kOneOverRootTwoPi - far_ratio) / larger_of(size, 1.0);
    const double near_factor =
        evaluate_polynomial(c, size) / evaluate_polynomial(d, size);
    const double tail =
        exp_of_half_square(size) * (size > kRoot32 ? far_factor : near_factor);
    const double outer = z < 0.0 ? tail : 1.0 - tail;
    return size <= 0.67448975 ? centre : outer;
}

}  // namespace flattail::base::lane
