// Rolling resistance: one set of conversions for test evidence and for the ride.
//
// Pressures in this file are gauge pressures: it is the excess over the outside that
// holds the tyre's shape.
#pragma once

#include "physics/constants.h"

namespace flattail::physics {

/// What a measured tyre, or a measured pair, carried and how fast it turned.
struct RollingPoint {
    double speed_m_s = 0.0;
    double load_kg = 0.0;  // on the tyre, or on both tyres of the pair together
    double gravity_m_s2 = kStandardGravity;
};

/// Rolling coefficient of a tyre (or a pair) that takes a power at a speed and load.
/// Source:  METHOD 4.1
double convert_power_to_crr(double power_w, const RollingPoint& point);

/// Power that a rolling coefficient takes from a tyre (or a pair) at a speed and load.
/// Source:  METHOD 4.1
double convert_crr_to_power_w(double crr, const RollingPoint& point);

/// Factor on a force measured on a drum that gives the force on a flat road.
/// Range:   both radii > 0; below 1, since a drum bends the tyre more
/// Source:  METHOD 4.2 (ISO 28580, alignment of drum diameters; form from memory)
double compute_drum_to_flat_factor(double drum_radius_m, double tyre_radius_m);

// 1/K. Source: ISO 28580 and UN R117 for car tyres; bicycle tyres are assumed alike. If
// wrong, cold mornings come out too slow or too fast by the same amount for all setups.
inline constexpr double kTemperatureCoefficient = 0.008;
inline constexpr double kRollingReferenceTemperature =
    kZeroCelsius + 25.0;  // K, ISO 28580
// K. The standard corrects from 20 to 30 C only; the law is stretched to these limits and
// held constant beyond them (assumption).
inline constexpr double kColdestRollingTemperature = kZeroCelsius - 5.0;
inline constexpr double kHottestRollingTemperature = kZeroCelsius + 50.0;

/// Factor on the hysteresis loss at 25 C that gives the loss at another temperature.
/// Range:   constant below -5 C and above 50 C
/// Source:  METHOD 4.3 (ISO 28580: F25 = F [1 + K (t - 25)])
double compute_temperature_factor(double temperature_k,
                                  double coefficient_per_k = kTemperatureCoefficient);

enum class Surface { kSmooth, kOrdinary, kCoarse, kCobbles };

// Rolling coefficient of the default race tyre with a butyl tube at its reference
// pressure and 25 C. Source: common practice, +-15 % (cobbles .008 to .018). They set how
// much of the race is rolling at all; a user's own evidence replaces them.
/// Source:  METHOD 4.5
double find_default_crr(Surface surface);

// Hysteresis part of the default race tyre: what a rough road does not add. Assumption: a
// smooth road adds .0002 to it. If larger, best pressures rise on every surface.
inline constexpr double kDefaultHysteresisCrr = 0.0036;

// Pa gauge, the pressure at which the default race tyre (28 mm) is described. Assumption,
// after common practice (73 psi).
inline constexpr double kDefaultReferencePressure = 5.0 * kPascalPerBar;

// m, the width for which that pressure holds.
inline constexpr double kDefaultReferenceWidth = 0.028;

/// Gauge pressure at which a tyre of this width is described. Tyres of all widths carry
/// alike with the same tension in the casing, pressure times width (assumption).
inline double find_reference_pressure_pa(double width_m) {
    return kDefaultReferencePressure * kDefaultReferenceWidth / width_m;
}

// How fast hysteresis falls with pressure. Source: Grappe et al. 1999, Cr ~ p^-.477 (from
// memory); agrees in kind with Crr = a + b/p (Tire Sci Technol 6(3):163). Not well known:
// .2 to .7 (assumption). Larger values move best pressures up.
inline constexpr double kDefaultHysteresisExponent = 0.477;

// How fast roughness loss rises with pressure. Assumption: a stiff tyre passes on a force
// that grows with its stiffness, the body damps the square of it, and stiffness grows
// with pressure, hence 2. Published: it rises with stiffness and roughness alone (Turner
// 2024). Not well known: 1 to 3. Larger values move the best pressures of all surfaces
// together.
inline constexpr double kDefaultRoughnessExponent = 2.0;

/// Part of the default rolling coefficient that a surface adds at reference pressure.
/// Source:  METHOD 4.5
double find_default_roughness_crr(Surface surface);

/// How the rolling coefficient of one tyre answers to pressure and temperature.
struct RollingLaw {
    double hysteresis_crr = kDefaultHysteresisCrr;  // at the reference pressure and 25 C
    double reference_pressure_pa = kDefaultReferencePressure;  // gauge
    double hysteresis_exponent = kDefaultHysteresisExponent;
    double roughness_exponent = kDefaultRoughnessExponent;
    double temperature_coefficient_per_k = kTemperatureCoefficient;
};

/// Where a tyre rolls, and how it is inflated.
struct RollingState {
    double roughness_crr = 0.0;  // what this surface adds at reference pressure
    double pressure_pa = kDefaultReferencePressure;  // gauge
    double temperature_k = kRollingReferenceTemperature;
};

// Pa gauge. Below this the wheel counts as flat. Assumption: a loaded rim is then on the
// road or near it. The rolling law is not followed any lower.
inline constexpr double kFlatWheelPressure = 1.5 * kPascalPerBar;

/// Rolling coefficient of a tyre on a surface at a pressure and temperature.
/// Range:   pressures below kFlatWheelPressure count as kFlatWheelPressure
/// Source:  METHOD 4.4
double compute_crr(const RollingLaw& law, const RollingState& state);

/// The hysteresis part that makes the law give a measured coefficient in a state; what
/// law.hysteresis_crr holds is not read.
/// Source:  METHOD 4.4, solved for its first constant
double solve_hysteresis_crr(double measured_crr, const RollingLaw& law,
                            const RollingState& state);

struct PressureRange {
    double lowest_pa = kFlatWheelPressure;
    double highest_pa = 10.0 * kPascalPerBar;
};

/// Gauge pressure within a range at which a tyre rolls best on a surface;
/// state.pressure_pa is not read.
/// Source:  METHOD 4.6
double find_best_pressure_pa(const RollingLaw& law, const RollingState& state,
                             const PressureRange& range = {});

/// Share of the weight on each wheel.
/// Source:  common practice for a rider on level road; the rear carries more uphill. A
///          share wrong by .05 moves a front tyre's worth by a ninth.
struct WheelShares {
    double front = 0.45;
    double rear = 0.55;
};

/// Rolling coefficient of the whole bicycle.
/// Source:  METHOD 4.7
inline double combine_crr(double front_crr, double rear_crr,
                          const WheelShares& shares = {}) {
    return shares.front * front_crr + shares.rear * rear_crr;
}

}  // namespace flattail::physics
