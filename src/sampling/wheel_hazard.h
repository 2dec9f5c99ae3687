// How hard one wheel's hazard is on one day, over the reference hazard, cause by cause.
#pragma once

#include "sampling/day_block.h"
#include "scenario/model.h"

namespace flattail::sampling {

/// Reference for fitting faults: this many expected over a tube's life. Only the ratio to
/// it matters; it keeps heights of order one.
constexpr double kReferenceFittingFaults = 0.01;

/// A tubeless tyre survives a harder hit than a tube in the same tyre: nothing inside is
/// nipped.
/// Assumption; if wrong, soft tubeless tyres look too good or too bad, others do not
/// move.
constexpr double kTubelessPinchLimit = 1.5;

/// What a wheel is like at the moment it meets a point.
struct WheelMoment {
    double gauge_pa = 0.0;
    double wet = 0.0;     // 1 on a wet road, else 0
    double load_n = 0.0;  // on this wheel
};

/// One wheel as it rolls: what of the setup decides its flats. Changes when a spare is
/// fitted.
struct RollingWheel {
    int tyre = 0;
    int inner = 0;
    InputId wear_ratio;          // may be unset
    double fitting_ratio = 1.0;  // 0 after a repair has lasted a while
};

/// Hazard of `cause` over the reference, for one lane.
double compute_hazard_ratio(const scenario::Model& model, const DayBlock& days, int lane,
                            const RollingWheel& wheel, FlatCause cause,
                            const WheelMoment& moment);

/// Reference intensity of a day, per metre of ordinary road (cuts and pinches) or per
/// metre (fitting faults).
/// Shapes: out[lane]
void compute_reference_rates(const scenario::Model& model, const DayBlock& days,
                             int wheel, FlatCause cause, double* out);

/// Load on a wheel, N: its share of rider, clothing, bicycle and what the setup adds.
double compute_wheel_load_n(const scenario::Model& model, const DayBlock& days, int lane,
                            const scenario::Setup& setup, int wheel);

}  // namespace flattail::sampling
