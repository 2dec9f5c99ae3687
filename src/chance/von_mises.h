// The von Mises distribution of an offset from the mean direction.
#pragma once

namespace flattail::chance {

/// Density of an offset in [-pi, pi].
/// Range:   concentration in (0, 1e6]
/// Accuracy: 1e-13 relative
/// Source:  Mardia & Jupp 2000, eq. 3.5.17
double von_mises_density(double offset_rad, double concentration);

/// The chance of an offset at or below this one.
/// Accuracy: 1e-12 relative in the lower half, absolute in the upper
double von_mises_cdf(double offset_rad, double concentration);

/// The offset below which a share of all lies. The upper half is the mirror of the lower,
/// so the caller gives both shares and loses no digits; they add up to 1.
/// Accuracy: 1e-12 rad
double von_mises_quantile(double share_below, double share_above, double concentration);

/// Length of the mean resultant, I1 / I0.
/// Accuracy: 1e-13
/// Source:  Mardia & Jupp 2000, eq. 3.5.31
double von_mises_resultant(double concentration);

}  // namespace flattail::chance
