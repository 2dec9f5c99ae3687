#include "physics/pedalling.h"

#include "support/catch.h"

using namespace flattail::physics;

TEST_CASE("the 1998 road trial needs 213.2 W at the pedals") {
    // Martin et al. 1998: 208.25 W at the wheel over 97.698 % (inputs from memory).
    CHECK(compute_pedal_power_w(208.25, .97698) == Approx(213.2).margin(.1));
    CHECK(kDrivetrainEfficiency == Approx(.97698).margin(.001));
}

TEST_CASE("power to the wheel and back is the same power") {
    CHECK(compute_pedal_power_w(compute_wheel_power_w(250.0)) == Approx(250.0));
    CHECK(compute_wheel_power_w(250.0) < 250.0);
}
