// How wind spreads and drifts: speeds (Weibull), directions (von Mises), change in time
// or along the road (Ornstein-Uhlenbeck).
#pragma once

namespace flattail::physics {

struct Weibull {
    double shape = 2.0;
    double scale = 1.0;
};

/// E[x^order] of a Weibull variable.
/// Range:   order > -shape
/// Source:  METHOD 2.5
double compute_weibull_moment(const Weibull& law, double order);

double compute_weibull_mean(const Weibull& law);
double compute_weibull_variance(const Weibull& law);

/// The value that a share `probability` of Weibull draws does not exceed.
/// Range:   probability in [0, 1)
/// Source:  METHOD 2.6
double compute_weibull_quantile(const Weibull& law, double probability);

/// The Weibull scale that gives a mean.
/// Source:  METHOD 2.5
double compute_weibull_scale(double mean, double shape);

/// Length of the mean direction vector of von Mises directions, A1 = I1/I0.
/// Range:   kappa >= 0
/// Accuracy: 1e-12 up to kappa 500; beyond, the asymptotic series, error below 1e-11
/// Source:  METHOD 2.7 (Mardia & Jupp 2000, Directional Statistics, section 3.5.4)
double compute_mean_resultant(double kappa);

/// A process that drifts around its mean: `deviation` is the spread at any moment,
/// `scale` the time or distance over which it forgets.
struct Drift {
    double deviation = 1.0;
    double scale = 1.0;
};

/// Share of a deviation that is left after a step.
/// Source:  METHOD 2.8 (Ornstein-Uhlenbeck, exact discretisation)
double compute_drift_memory(const Drift& drift, double step);

/// Standard deviation of what a step adds.
/// Source:  METHOD 2.8
double compute_drift_innovation(const Drift& drift, double step);

/// Variance of the average of the process over a span.
/// Accuracy: relative error below 1e-13 for any span, zero included
/// Source:  METHOD 2.9
double compute_drift_average_variance(const Drift& drift, double span);

}  // namespace flattail::physics
