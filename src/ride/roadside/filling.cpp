#include "ride/roadside/filling.h"

#include <algorithm>

#include "physics/cartridge.h"
#include "physics/gas_mix.h"
#include "physics/rolling.h"

namespace flattail::ride {

namespace {

// Share of the pressure at the start with which a rider rides on rather than spend
// another cartridge. Assumption; higher: more cartridges used up.
constexpr double kHardEnough = 0.6;

const scenario::Wheel& wheel_of(const EmptyWheel& empty) {
    return empty.setup->wheels[static_cast<std::size_t>(empty.wheel)];
}

physics::GasMix find_gas_before(const EmptyWheel& empty, double outside_pa) {
    const bool is_bare = !empty.holds_air && empty.gauge_pa <= 0.0;
    return is_bare ? physics::GasMix{}
                   : physics::make_air(outside_pa + std::max(empty.gauge_pa, 0.0));
}

// What is in the wheel when the pressure wanted is not exceeded: the rest hisses away.
void hold_back(physics::GasMix& mix, double most_pa) {
    const double total_pa = physics::compute_gauge_pressure_pa(mix, 0.0);
    if (total_pa <= most_pa) return;
    for (double& partial_pa : mix.partial_pa) partial_pa *= most_pa / total_pa;
}

}  // namespace

bool can_fill(const EmptyWheel& empty, const LaneKit& kit) {
    if (!wheel_of(empty).air_reaches) return false;
    return empty.setup->kit.has_pump() ||
           kit.cartridges_used < empty.setup->kit.inflations();
}

RoadsideFill fill_at_roadside(const EmptyWheel& empty, LaneKit& kit) {
    RoadsideFill fill;
    if (!can_fill(empty, kit)) return fill;
    const scenario::Model& model = *empty.model;
    const scenario::Kit& carried = empty.setup->kit;
    const scenario::Wheel& wheel = wheel_of(empty);
    const auto& tyre = model.tyres[static_cast<std::size_t>(wheel.tyre)];
    const double outside_pa = model.weather.pressure_pa;
    const double enough_pa = kHardEnough * wheel.gauge_pa;
    const physics::Vessel vessel{physics::compute_torus(tyre.width_m).volume_m3,
                                 empty.temperature_k};
    physics::GasMix mix = find_gas_before(empty, outside_pa);
    const auto gauge_now_pa = [&] {
        return physics::compute_gauge_pressure_pa(mix, outside_pa);
    };
    while (kit.cartridges_used < carried.inflations() && gauge_now_pa() < enough_pa) {
        physics::Cartridge cartridge;
        cartridge.mass_kg =
            carried.cartridge_kg[static_cast<std::size_t>(kit.cartridges_used++)];
        mix = physics::fill_from_cartridge(mix, cartridge, vessel);
        hold_back(mix, outside_pa + wheel.gauge_pa);
    }
    fill.carbon_dioxide_pa =
        mix.partial_pa[physics::index_of(physics::Gas::kCarbonDioxide)];
    fill.gauge_pa = gauge_now_pa();
    if (fill.gauge_pa < enough_pa && carried.has_pump()) {
        const bool is_mini = carried.pump == scenario::Pump::kMini;
        const double reach_pa = is_mini ? model.repair.mini_pump_pa : wheel.gauge_pa;
        fill.gauge_pa = std::max(fill.gauge_pa, std::min(reach_pa, wheel.gauge_pa));
        fill.extra_s = is_mini ? model.repair.mini_pump_s : model.repair.frame_pump_s;
    }
    fill.filled = fill.gauge_pa >= physics::kFlatWheelPressure;
    return fill;
}

}  // namespace flattail::ride
