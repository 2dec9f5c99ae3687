// "Two tubes are worth 12 W: how many minutes over 90 km?" Independent figures: computed
// from the power balance of Martin et al. 1998 for CdA .28, Crr .0035, 85 kg, 1.2 kg/m3,
// efficiency .97, still air; 12 W a pair at 45 km/h and 85 kg is a change of Crr of
// .00115. Bound: 5 %, since the question fixes no bearings and no reference temperature.
#include <cmath>

#include "flattail/study.h"
#include "support/catch.h"

namespace {

using namespace flattail;

double save_seconds(int power_w) {
    const std::string file =
        std::string(FLATTAIL_SOURCE_DIR) + "/tests/support/scenarios/twelve_watts.toml";
    const std::string power =
        "rider.power={ mean = \"" + std::to_string(power_w) + " W\", sd = \"0 W\" }";
    StudyOptions options;
    options.races = 64;
    const Findings found = run_study(read_scenario({file, {power}}), options);
    return -found.pairs.front().mean_s.value;
}

}  // namespace

TEST_CASE("twelve watts save what the power balance says at 150, 200 and 250 W") {
    CHECK(save_seconds(150) == Approx(220.0).epsilon(0.05));
    CHECK(save_seconds(200) == Approx(163.0).epsilon(0.05));
    CHECK(save_seconds(250) == Approx(129.0).epsilon(0.05));
}

TEST_CASE("slower riders gain less than a constant-watt sum says") {
    // The same saving taken as 12 W at any speed: about 290, 195 and 141 s.
    CHECK(save_seconds(150) < 0.85 * 290.0);
    CHECK(save_seconds(200) < 0.95 * 195.0);
    CHECK(save_seconds(250) < 141.0);
}
