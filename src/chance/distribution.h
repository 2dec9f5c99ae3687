// What a distribution says: quantiles, shares, moments. As data it stands in the public
// face.
#pragma once

#include "flattail/uncertain.h"

namespace flattail::chance {

enum class DistributionFault {
    kNone,
    kNotFinite,          // a parameter or table entry is no number
    kSpreadNotPositive,  // a width, scale, exponent or concentration is zero or less
    kChanceOutOfRange,   // a chance outside [0, 1]
    kEndsNotInOrder,     // low, mode, high or a quantile table do not rise
    kTableEmpty,         // a table or sample without entries (a quantile table needs two)
    kBoundsEmpty,        // nothing is left between the bounds
    kBoundsNotAllowed    // this shape cannot be cut
};

/// What is wrong with a distribution; the functions below expect kNone.
DistributionFault find_fault(const Distribution& distribution);

/// The value below which a share u of the distribution lies, 0 < u < 1. Samples are
/// ranked for it, whatever the order of their rows.
/// Accuracy: gamma, beta 1e-12 relative; von Mises 1e-12 rad; others as
///           base/lane_normal.h
///          Directions: mean plus the quantile of the offset, brought into [0, 2 pi)
double quantile(const Distribution& distribution, double u);

/// The chance of a value at or below x. Directions: of an offset from the mean
/// direction in (-pi, that of x], both taken within half a turn.
double cdf(const Distribution& distribution, double x);

/// The mean; for directions the mean direction.
/// Accuracy: closed form; 1e-9 relative to the sd under bounds and for quantile tables
double mean(const Distribution& distribution);

/// The standard deviation; for directions sqrt(-2 ln R), R the mean resultant length
/// (Mardia & Jupp 2000, eq. 2.3.14), which for kWrappedNormal is its own sd.
double sd(const Distribution& distribution);

/// True for shapes whose values are angles.
bool is_direction(Shape shape);

/// True when a bound cuts the distribution.
bool is_bounded(const Distribution& distribution);

/// Density of the untruncated shape with respect to x; for directions of the offset.
/// Range:   kNormal to kVonMises
double density(const Distribution& distribution, double x);

}  // namespace flattail::chance
