// How fast the gases leave an inner when its losses are as drawn for one day, and what a
// cartridge makes of an empty tube.
#pragma once

#include "scenario/model.h"

namespace flattail::scenario {

/// What was lost in the two observations of a Leak.
struct GasLosses {
    double air_pa = 0.0;
    double carbon_dioxide_pa = 0.0;  // read only where the leak has it apart
};

/// The leak rates of one inner for any losses.
class LeakRates {
  public:
    explicit LeakRates(const Leak& leak);

    /// Rates at physics::kPermeationReferenceTemperature.
    /// Accuracy: the middle to the bit; within 1.5 % of METHOD 5.7 for half or twice the
    ///           loss of air, exact for carbon dioxide
    /// Source:  METHOD 5.14
    physics::PerGas at(const GasLosses& lost) const;

  private:
    // Rates go as -ln(1 - loss / excess), and are known for one loss.
    struct Scale {
        bool applies = false;
        double middle_pa = 0.0;
        double excess_pa = 0.0;
        double log_middle = -1.0;

        double ratio(double lost_pa) const;
    };
    static Scale make_scale(InputId id, double middle_pa, double excess_pa);

    physics::PerGas middle_per_s_;
    Scale air_, carbon_dioxide_;
    double gain_pa_ = 0.0;  // air that creeps into a tube of carbon dioxide meanwhile
};

/// Puts the rates of a wall of this material into `leak`, from what was seen.
void calibrate(Leak& leak, physics::WallMaterial material);

/// Gauge pressure that the smallest cartridge of the kit gives in an empty tube in this
/// wheel's tyre, once it has warmed up again.
/// Source:  METHOD 5.10
double compute_cartridge_gauge_pa(const Model& model, const Setup& setup, int wheel,
                                  double temperature_k);

// What a sealant can leaves in a tyre, gauge. Assumption (40 psi), enough to ride on.
inline constexpr double kSealantCanPressure = 2.8e5;

/// The softest that a wheel of this setup can be after a pump or a sealant can has filled
/// it: the pressure at the start where neither is carried.
double find_softest_by_hand_pa(const Model& model, const Setup& setup,
                               const Wheel& wheel);

}  // namespace flattail::scenario
