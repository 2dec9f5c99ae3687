// How often wheels go flat: factors on a rider's own rate, by cause.
//
// No published rate per kilometre, and no published rate by kind of tube, was found.
// Every factor here is a default for the case that nothing better is known, with a wide
// range; those marked assumption rest on common practice at best.
#pragma once

#include <span>

#include "physics/constants.h"
#include "physics/rolling.h"

namespace flattail::physics {

// ---- cuts
// ------------------------------------------------------------------------------

enum class TyreKind { kRace, kThin, kTough };
enum class TyreWear { kFresh, kHalfWorn, kWorn };
enum class Inner { kButyl, kThermoplastic, kLatex, kTubeless };
enum class Wetness { kDry, kWet };

// Race rate over training rate on the same tyre: swept closed roads. Assumption, .4
// to 1.3.
inline constexpr double kRaceFactor = 0.8;

/// Cuts of a kind of tyre against a race tyre: thin 1.6 (1.1 to 2.5), tough .45 (.25 to
/// .7).
/// Source: METHOD 6.1 (assumption)
double find_tyre_factor(TyreKind kind);

/// Cuts of a worn tyre against a fresh one: half worn 1.3, worn or cut 2 (to 3).
/// Source:  METHOD 6.1 (assumption)
double find_wear_factor(TyreWear wear);

/// Cuts on a wet road against a dry one: 1.7 (1.1 to 3).
/// Source:  METHOD 6.1 (assumption)
double find_wet_factor(Wetness wetness);

/// Cuts by what holds the air, against butyl: 1 for all, tubeless before any sealing. No
/// difference was ever published; ranges .6 to 1.8.
/// Source:  METHOD 6.1 (assumption)
double find_inner_factor(Inner inner);

/// Factors on a rider's training rate of cuts.
struct CutFactors {
    double race = kRaceFactor;
    double debris = 1.0;  // of the stretch of road
    double wet = 1.0;
    double tyre = 1.0;
    double wear = 1.0;
    double inner = 1.0;
};

/// Cut hazard over the rider's training hazard.
/// Source:  METHOD 6.1
double compute_cut_ratio(const CutFactors& factors);

// Share of flats at the rear wheel: it carries more and meets what the front has turned
// up. Assumption, common practice .55 to .8.
inline constexpr double kRearFlatShare = 0.67;

// ---- pinches
// ---------------------------------------------------------------------------

// Share of flats in training that are pinches, on an ordinary road at reference pressure.
// Assumption, 5 to 25 %.
inline constexpr double kPinchShare = 0.12;

/// Hits hard enough to count, per metre, against an ordinary road: coarse 3, cobbles 6.
/// Source:  METHOD 6.2 (assumption; "three times on a rough road" is common practice)
double find_impact_factor(Surface surface);

/// What stands between a stone and the rim.
struct PinchState {
    double pressure_pa = kDefaultReferencePressure;  // gauge
    double width_m = 0.028;
    double load_n = 459.0;  // on this wheel: .55 of 85 kg

    // Factor on the severity the wheel survives; above 1 without a tube to pinch.
    double inner_limit_ratio = 1.0;
};

/// Severity of a hit is exponential; the limit a wheel survives grows with pressure and
/// width and falls with load. All assumptions: the force at which a tyre bottoms out
/// grows as pressure times contact area, the height it can give as its width, the energy
/// of a hit as the load. If `steepness` is wrong, the price of soft tyres is: at 6, a
/// tenth less pressure gives 1.8 times the pinches.
struct PinchLaw {
    PinchState reference;
    double steepness = 6.0;  // limit over mean severity in the reference state
    double pressure_exponent = 1.0;
    double width_exponent = 2.0;
    double load_exponent = 1.0;
};

/// Severity that a wheel survives, over that of the reference state.
/// Range:   pressure, width and load > 0
/// Source:  METHOD 6.3
double compute_pinch_limit_ratio(const PinchLaw& law, const PinchState& state);

/// Pinch hazard over that of the reference state with the same hits.
/// Source:  METHOD 6.4
double compute_pinch_ratio(const PinchLaw& law, const PinchState& state);

// ---- fitting faults
// --------------------------------------------------------------------

enum class Fitter { kPractised, kBeginner };

/// Chance that a tube just fitted fails of the fitting: butyl .3 %, thermoplastic .6 %,
/// latex .8 %, tubeless as butyl; three times that for a beginner. A factor of 3 either
/// way.
/// Source: METHOD 6.5 (assumption)
double find_fitting_fault_chance(Inner inner, Fitter fitter);

// m in which what is left of the chance falls to 1/e: 50 km leave a fifth (assumption).
inline constexpr double kFittingFadeLength = 50e3 / 1.6094379124341003;

/// A tube that may have been fitted badly.
struct Fitting {
    double fault_chance = 0.0;  // over all of its life, when it has just been fitted
    double ridden_m = 0.0;      // since fitting
    double fade_length_m = kFittingFadeLength;
};

/// Hazard of failing of the fitting, now.
/// Source:  METHOD 6.6
double compute_fitting_hazard_per_m(const Fitting& fitting);

/// Chance that the tube fails of the fitting within a distance from here on.
/// Source:  METHOD 6.7
double compute_fitting_fault_chance(const Fitting& fitting, double distance_m);

// ---- slow leaks
// ---------------------------------------------------------------------

// Share of cut tubes that lose their air slowly, and the hole of such a cut: m, and the
// factor within which two in three lie. Assumptions: 10 to 40 %; a race tyre then goes
// soft in about 10 minutes, in 3 to 40 minutes nine times in ten. METHOD 6.30
inline constexpr double kSlowShare = 0.25;
inline constexpr double kSlowHoleMedian = 0.12e-3;
inline constexpr double kSlowHoleSpread = 1.5;

// ---- sealant
// ---------------------------------------------------------------------------

// Chance that fresh sealant closes a cut at 4 bar and above, and what it loses before it
// does, Pa. Assumptions: 40 to 85 %, 5 to 30 psi.
inline constexpr double kSealantHoldChance = 0.65;
inline constexpr double kSealantPressureLoss = 15.0 * 6894.757;

// Sealant dries: over three months old it closes .6 as many cuts (assumption).
inline constexpr double kSealantFadeShare = 0.6;
inline constexpr double kSealantFadeTime = 91.0 * 86400.0;  // s

/// Chance that sealant of an age closes a cut.
/// Source:  METHOD 6.8
double compute_sealant_hold_chance(double fresh_chance, double age_s);

// ---- counts
// ----------------------------------------------------------------------------

struct Stretch {
    double length_m = 0.0;
    double hazard_per_m = 0.0;
};

/// Expected number of flats over stretches, the cumulative hazard.
/// Source:  METHOD 6.9
double sum_hazard(std::span<const Stretch> stretches);

/// Chance of no flat.
/// Source:  METHOD 6.10 (Poisson)
double compute_no_flat_chance(double cumulative_hazard);

/// Chance of exactly `count` flats.
/// Source:  METHOD 6.10 (Poisson)
double compute_flat_count_chance(double cumulative_hazard, int count);

/// Chance of `count` flats or more.
/// Source:  METHOD 6.10 (Poisson; regularised incomplete gamma function)
double compute_at_least_chance(double cumulative_hazard, int count);

/// Chance of exactly `count` flats when a gamma factor of mean 1 and this shape
/// multiplies the hazard of the whole day.
/// Source: METHOD 6.11 (negative binomial)
double compute_clumped_count_chance(double cumulative_hazard, double shape, int count);

/// Shape of the gamma factor whose logarithm has the standard deviation ln(spread): about
/// two days in three lie within a factor `spread` of the middle.
/// Range:   spread_ratio > 1
/// Source:  METHOD 6.12 (trigamma function)
double solve_clump_shape(double spread_ratio);

}  // namespace flattail::physics
