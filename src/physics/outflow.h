// How fast a tube empties through a hole: air, constant temperature, absolute pressures.
#pragma once

#include "physics/constants.h"

namespace flattail::physics {

struct Hole {
    double diameter_m = 0.0;
    double discharge_coefficient =
        0.6;  // sharp edge, common practice; rubber may close it
};

struct LeakingTube {
    Hole hole;
    double volume_m3 = 0.0;
    double temperature_k = kZeroCelsius + 20.0;
    double ambient_pa = kStandardPressure;
};

/// Outside over inside pressure below which the flow is choked, (2/2.4)^3.5 = .528.
/// Source:  METHOD 5.11 (isentropic nozzle, ratio of heats 1.4)
double compute_choking_ratio();

/// Mass of air that leaves per second at an inside pressure; zero at and below the
/// outside.
/// Source: METHOD 5.11 (choked), METHOD 5.12 (below choking)
double compute_mass_flow_kg_s(const LeakingTube& tube, double absolute_pa);

/// Time in which the pressure falls from one value to another, none below the outside.
/// Accuracy: closed form, choked and below
/// Source:  METHOD 5.13
double compute_fall_time_s(const LeakingTube& tube, double from_pa, double to_pa);

/// Pressure after a time; the outside pressure once the tube is empty.
/// Accuracy: 1e-10 relative
/// Source:  METHOD 5.13, solved for the pressure
double compute_pressure_after_outflow_pa(const LeakingTube& tube, double from_pa,
                                         double time_s);

}  // namespace flattail::physics
