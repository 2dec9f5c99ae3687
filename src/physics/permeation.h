// How fast each gas leaves through the wall of a tube.
#pragma once

#include "physics/constants.h"
#include "physics/gas_mix.h"

namespace flattail::physics {

// mol m/(m2 s Pa) in one barrer. Source: definition, 1e-10 cm3(STP) cm/(cm2 s cmHg).
inline constexpr double kBarrer = 3.34640e-16;

// K, the temperature of the permeability table and of WallLeak rates.
inline constexpr double kPermeationReferenceTemperature = kZeroCelsius + 25.0;

// Latex tubes are natural rubber. Other inners (thermoplastic, sealed tubeless) are
// stated by an observed loss and take butyl's gas ratios (assumption).
enum class WallMaterial { kNaturalRubber, kButyl };

/// Permeability of a material to a gas.
/// Units:   mol m/(m2 s Pa)
/// Range:   0 to 60 C
/// Accuracy: samples of one rubber differ by a factor of 1.5 or more
/// Source:  METHOD 5.3 (Robb 1968 for oxygen; permeability handbook, table 86-01, for the
///          gas ratios of natural rubber; butyl's other gases and all activation energies
///          are van Amerongen's, from memory)
double compute_permeability(WallMaterial material, Gas gas, double temperature_k);

/// The wall of an inflated tube; a thin torus around a section of this radius.
struct TubeWall {
    WallMaterial material = WallMaterial::kButyl;
    double thickness_m = 0.0;  // as stretched inside the tyre
    double section_radius_m = 0.0;
};

/// Leak rates of one tube: dp/dt = -rate (p - p outside) for each gas.
struct WallLeak {
    WallMaterial material = WallMaterial::kButyl;  // sets the change with temperature
    PerGas rate_per_s{};                           // at kPermeationReferenceTemperature
};

/// Leak rates of a wall of bare rubber.
/// Accuracy: against worn-in latex of .5 mm, 1.5 to 2 times too fast (common practice):
///           scale by an observed loss where one is known
/// Source:  METHOD 5.4
WallLeak make_wall_leak(const TubeWall& wall);

/// Leak rates at another temperature.
/// Source:  METHOD 5.5 (Arrhenius)
PerGas compute_leak_rates_per_s(const WallLeak& leak, double temperature_k);

/// E / R of each gas: the temperature that sets how fast its rate grows with warmth.
/// Source:  METHOD 5.3
PerGas find_activation_temperatures_k(WallMaterial material);

/// The mix after a time at constant temperature and outside air.
/// Range:   duration_s >= 0
/// Accuracy: closed form
/// Source:  METHOD 5.6
GasMix leak_through_wall(const GasMix& inside, const GasMix& outside,
                         const PerGas& rate_per_s, double duration_s);

/// "From 75 psi it loses 5 psi in 10 hours."
struct ObservedLoss {
    double start_gauge_pa = 0.0;
    double lost_pa = 0.0;
    double duration_s = 0.0;
    double temperature_k = kZeroCelsius + 20.0;
    double ambient_pa = kStandardPressure;
};

/// A leak whose rates for all gases are scaled alike until air is lost as observed.
/// Range:   0 <= lost_pa < start_gauge_pa
/// Source:  METHOD 5.7
WallLeak scale_to_air_loss(const WallLeak& leak, const ObservedLoss& seen);

/// A leak whose carbon dioxide rate alone is set so that a tube filled with nothing else
/// loses pressure as observed.
/// Range:   0 <= lost_pa < start_gauge_pa
/// Source:  METHOD 5.8
WallLeak set_carbon_dioxide_loss(const WallLeak& leak, const ObservedLoss& seen);

}  // namespace flattail::physics
