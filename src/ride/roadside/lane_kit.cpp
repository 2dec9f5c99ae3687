#include "ride/roadside/lane_kit.h"

namespace flattail::ride {

LaneKit pack_kit(const scenario::Setup& setup) {
    LaneKit kit;
    kit.tubes = setup.kit.tubes;
    kit.plugs = setup.kit.plugs;
    kit.patches = setup.kit.patches;
    kit.boots = setup.kit.boots;
    kit.sealant_cans = setup.kit.sealant_cans;
    for (std::size_t w = 0; w < kit.wheels.size(); ++w) {
        const scenario::Wheel& wheel = setup.wheels[w];
        kit.wheels[w] = {wheel.tyre, wheel.inner, wheel.wear_ratio, wheel.fitting_ratio};
    }
    return kit;
}

}  // namespace flattail::ride
