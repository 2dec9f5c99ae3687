#include "evidence/rolling/convert.h"

#include <cmath>

#include "support/catch.h"

using namespace flattail;
using namespace flattail::evidence;

namespace {

constexpr double kBar = 1e5;
constexpr double kKelvin = 273.15;

// Already at the common condition: 28 mm, 5 bar, 25 C, a smooth track.
TestRow make_row() {
    TestRow row;
    row.method = TestMethod::kTrack;
    row.width_m = 0.028;
    row.speed_m_s = 12.5;
    row.load_kg = 85.0;
    row.pressure_pa = 5.0 * kBar;
    row.temperature_k = 25.0 + kKelvin;
    row.power_w = 40.0;
    return row;
}

TestRow make_drum_row(double diameter_m) {
    TestRow row = make_row();
    row.method = TestMethod::kDrum;
    row.drum_diameter_m = diameter_m;
    return row;
}

}  // namespace

// Crr = P / (m g v), g of ISO 80000-3; the last column of the race-day question: 12 W at
// 45 km/h and 85 kg are .00115.
TEST_CASE("watts at the common condition become a coefficient and nothing else") {
    TestRow row = make_row();
    CHECK(convert_test(row).crr == Approx(40.0 / (85.0 * 9.80665 * 12.5)).epsilon(1e-13));
    const double before = convert_test(row).crr;
    row.power_w = 52.0;
    CHECK(convert_test(row).crr - before == Approx(.00115).margin(5e-6));
}

TEST_CASE("a coefficient and the watts it stands for convert to the same") {
    TestRow watts = make_drum_row(1.2), crr = watts;
    crr.power_w.reset();
    crr.crr = physics::convert_power_to_crr(40.0, {12.5, 85.0});
    CHECK(convert_test(crr).crr == Approx(convert_test(watts).crr).epsilon(1e-14));
}

// F25 = F [1 + .008 (t - 25)] (UN R117, annex 6): a test at 20 C reads 4 % too high. The
// smooth track's own .0002 has no temperature.
TEST_CASE("temperature is taken out as UN R117 has it") {
    TestRow row = make_row();
    row.temperature_k = 20.0 + kKelvin;
    const double measured = 40.0 / (85.0 * 9.80665 * 12.5);
    CHECK(convert_test(row).crr ==
          Approx(.0002 + (measured - .0002) * .96).epsilon(1e-12));
}

// Drum to flat, ISO 28580 for tyres of .334 m (from memory): drum radius .385, .6, .8535
// and 1 m give .732, .801, .848, .866. A 23 mm tyre has .311 + .023 m. Beside it, known
// for certain: a larger drum bends the tyre less, and an endless one not at all.
TEST_CASE("a drum reads too high, and the more so the smaller it is") {
    const double bare = 40.0 / (85.0 * 9.80665 * 12.5);
    const auto factor = [&](double radius_m) {
        TestRow row = make_drum_row(2.0 * radius_m);
        row.width_m = 0.023;
        row.pressure_pa = physics::find_reference_pressure_pa(0.023);
        return (convert_test(row).crr - .0002) / bare;
    };
    CHECK(factor(.385) == Approx(.732).margin(5e-4));
    CHECK(factor(.6) == Approx(.801).margin(5e-4));
    CHECK(factor(.8535) == Approx(.848).margin(5e-4));
    CHECK(factor(1.0) == Approx(.866).margin(5e-4));
    CHECK(factor(.385) < factor(.6));
    CHECK(factor(4.9) < 1.0);
}

// Cr = .1071 p^-.477 (Grappe et al. 1999, from memory). Known for certain: resistance
// falls with pressure (Tire Sci Technol 6(3):163), so a hard test is corrected upwards.
TEST_CASE("a test at high pressure counts for more at the common one") {
    TestRow row = make_drum_row(1.2);
    const double at_reference = convert_test(row).crr;
    row.pressure_pa = 8.0 * kBar;
    CHECK(convert_test(row).crr > at_reference);
    CHECK((convert_test(row).crr - .0002) / (at_reference - .0002) ==
          Approx(std::pow(8.0 / 5.0, .477)).epsilon(1e-12));
}

TEST_CASE("what the rider's law makes of a common coefficient converts back to it") {
    TestRow row = make_row();
    row.method = TestMethod::kRoad;
    row.surface = physics::Surface::kCoarse;
    row.pressure_pa = 6.3 * kBar;
    row.temperature_k = 11.0 + kKelvin;
    physics::RollingLaw law;
    law.hysteresis_crr = .0041;
    const double felt = physics::compute_crr(
        law, {physics::find_default_roughness_crr(physics::Surface::kCoarse), 6.3 * kBar,
              11.0 + kKelvin});
    row.power_w = physics::convert_crr_to_power_w(felt, {12.5, 85.0});
    CHECK(convert_test(row).crr == Approx(.0043).epsilon(1e-12));
}

TEST_CASE("a test repeated four times is twice as exact, down to a floor") {
    TestRow row = make_drum_row(1.2);
    row.spread = 1.6;
    const double once = convert_test(row).standard_error;
    row.runs = 4.0;
    CHECK(convert_test(row).standard_error == Approx(.5 * once).epsilon(1e-12));
    row.spread = 0.0;
    CHECK(convert_test(row).standard_error > 0.0);
    row.spread.reset();
    row.runs = 1.0;
    CHECK(convert_test(row).standard_error == Approx(.75 * once).epsilon(1e-12));
}

TEST_CASE("a test that cannot be converted says why") {
    const auto refusal = [](auto change) {
        TestRow row = make_drum_row(1.2);
        change(row);
        return convert_test(row).refusal;
    };
    CHECK(refusal([](TestRow&) {}).empty());
    CHECK(refusal([](TestRow& r) { r.speed_m_s.reset(); }) == "watts without a speed");
    CHECK(refusal([](TestRow& r) { r.load_kg.reset(); }) == "watts without a load");
    CHECK(refusal([](TestRow& r) { r.pressure_pa.reset(); }) == "no pressure");
    CHECK(refusal([](TestRow& r) { r.drum_diameter_m.reset(); }) ==
          "a drum without its diameter");
    CHECK(refusal([](TestRow& r) { r.power_w.reset(); }) ==
          "neither watts nor crr is stated");
    CHECK(refusal([](TestRow& r) { r.pressure_pa = 1.2 * kBar; }) ==
          "pressure below 1.5 bar: the wheel counts as flat");
    CHECK(refusal([](TestRow& r) { r.power_w = 400.0; }) ==
          "comes to Crr 0.0307, no road tyre: check unit, load and per");
}
