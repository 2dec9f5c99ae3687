#include "scenario/leak.h"

#include <algorithm>
#include <cmath>

#include "physics/cartridge.h"

namespace flattail::scenario {

namespace {

// A draw may not empty the tube within the observation.
constexpr double kMostShare = 0.95;

double compute_gain_pa(const Leak& leak) {
    using namespace physics;
    const ObservedLoss& seen = leak.carbon_dioxide;
    const PerGas rates = compute_leak_rates_per_s(leak.wall, seen.temperature_k);
    const GasMix outside = make_air(seen.ambient_pa);
    double gain_pa = 0.0;
    for (const Gas gas : {Gas::kNitrogen, Gas::kOxygen}) {
        gain_pa -= outside[gas] * std::expm1(-rates[index_of(gas)] * seen.duration_s);
    }
    return gain_pa;
}

}  // namespace

LeakRates::Scale LeakRates::make_scale(InputId id, double middle_pa, double excess_pa) {
    Scale scale;
    scale.applies = id.is_set() && middle_pa > 0.0;
    if (!scale.applies) return scale;
    scale.middle_pa = middle_pa;
    scale.excess_pa = excess_pa;
    scale.log_middle = std::log1p(-middle_pa / excess_pa);
    return scale;
}

double LeakRates::Scale::ratio(double lost_pa) const {
    if (!applies || lost_pa == middle_pa) return 1.0;
    const double share = std::clamp(lost_pa / excess_pa, 0.0, kMostShare);
    return std::log1p(-share) / log_middle;
}

LeakRates::LeakRates(const Leak& leak)
    : middle_per_s_(leak.wall.rate_per_s),
      air_(make_scale(leak.air_loss_pa, leak.air.lost_pa, leak.air.start_gauge_pa)) {
    if (!leak.carbon_dioxide_loss_pa.is_set()) return;
    using namespace physics;
    gain_pa_ = compute_gain_pa(leak);
    const ObservedLoss& seen = leak.carbon_dioxide;
    const double outside_share = kAirShares[index_of(Gas::kCarbonDioxide)];
    carbon_dioxide_ =
        make_scale(leak.carbon_dioxide_loss_pa, seen.lost_pa + gain_pa_,
                   seen.start_gauge_pa + seen.ambient_pa * (1.0 - outside_share));
}

physics::PerGas LeakRates::at(const GasLosses& lost) const {
    using physics::Gas;
    const double air = air_.ratio(lost.air_pa);
    const double carbon_dioxide =
        carbon_dioxide_.applies ? carbon_dioxide_.ratio(lost.carbon_dioxide_pa + gain_pa_)
                                : air;
    physics::PerGas rates = middle_per_s_;
    rates[physics::index_of(Gas::kNitrogen)] *= air;
    rates[physics::index_of(Gas::kOxygen)] *= air;
    rates[physics::index_of(Gas::kCarbonDioxide)] *= carbon_dioxide;
    return rates;
}

void calibrate(Leak& leak, physics::WallMaterial material) {
    using namespace physics;
    // Any wall: only the ratios of its rates are kept.
    constexpr TubeWall kAnyWall{WallMaterial::kButyl, 0.001, 0.014};
    TubeWall wall = kAnyWall;
    wall.material = material;
    leak.wall = scale_to_air_loss(make_wall_leak(wall), leak.air);
    if (leak.carbon_dioxide.lost_pa > 0.0) {
        leak.wall = set_carbon_dioxide_loss(leak.wall, leak.carbon_dioxide);
    }
}

double compute_cartridge_gauge_pa(const Model& model, const Setup& setup, int wheel,
                                  double temperature_k) {
    const auto tyre = setup.wheels[static_cast<std::size_t>(wheel)].tyre;
    const double width_m = model.tyres[static_cast<std::size_t>(tyre)].width_m;
    physics::Cartridge cartridge;
    cartridge.mass_kg = setup.kit.cartridge_kg.back();
    const physics::Vessel vessel{physics::compute_torus(width_m).volume_m3,
                                 temperature_k};
    return physics::compute_gauge_pressure_pa(
        physics::fill_from_cartridge({}, cartridge, vessel), model.weather.pressure_pa);
}

double find_softest_by_hand_pa(const Model& model, const Setup& setup,
                               const Wheel& wheel) {
    double softest_pa = wheel.gauge_pa;
    if (setup.kit.pump == Pump::kMini) {
        softest_pa = std::min(softest_pa, model.repair.mini_pump_pa);
    }
    if (setup.kit.sealant_cans > 0)
        softest_pa = std::min(softest_pa, kSealantCanPressure);
    return softest_pa;
}

}  // namespace flattail::scenario
