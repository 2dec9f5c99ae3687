#include "evidence/rolling/convert.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "physics/cartridge.h"

namespace flattail::evidence {

namespace {

using physics::Surface;

// Coefficients of road tyres; outside, a column is in the wrong unit or for a pair.
constexpr double kLeastCrr = 0.0008;
constexpr double kMostCrr = 0.03;

std::string find_missing(const TestRow& row) {
    if (!row.power_w && !row.crr) return "neither watts nor crr is stated";
    if (row.power_w && !row.speed_m_s) return "watts without a speed";
    if (row.power_w && !row.load_kg) return "watts without a load";
    if (!row.pressure_pa) return "no pressure";
    if (*row.pressure_pa < physics::kFlatWheelPressure) {
        return "pressure below 1.5 bar: the wheel counts as flat";
    }
    if (row.method == TestMethod::kDrum && !row.drum_diameter_m) {
        return "a drum without its diameter";
    }
    return "";
}

// The factor that turns what was measured into a coefficient on a flat road.
double find_factor_to_flat(const TestRow& row) {
    double factor = 1.0;
    if (row.power_w) {
        factor = physics::convert_power_to_crr(1.0, {*row.speed_m_s, *row.load_kg});
    }
    if (row.method == TestMethod::kDrum) {
        const double tyre_m =
            0.5 * physics::kRoadRimDiameter + row.width_m.value_or(kUnstatedWidth);
        factor *=
            physics::compute_drum_to_flat_factor(0.5 * *row.drum_diameter_m, tyre_m);
    }
    return factor;
}

// A drum is bare steel unless the row says what covers it.
double find_roughness(const TestRow& row) {
    if (row.method == TestMethod::kDrum && !row.surface) return 0.0;
    const Surface usual =
        row.method == TestMethod::kRoad ? Surface::kOrdinary : Surface::kSmooth;
    return physics::find_default_roughness_crr(row.surface.value_or(usual));
}

double find_relative_error(const TestRow& row) {
    const double value = row.power_w ? *row.power_w : *row.crr;
    const double one_run = row.spread ? *row.spread / value : kUnstatedSpread;
    return std::max(one_run / std::sqrt(row.runs), kLeastStandardError);
}

// A coefficient on a flat road, brought to reference pressure and 25 C on a smooth one.
double bring_to_common(double flat_crr, const TestRow& row) {
    physics::RollingLaw law;
    law.reference_pressure_pa =
        physics::find_reference_pressure_pa(row.width_m.value_or(kUnstatedWidth));
    const physics::RollingState tested{find_roughness(row), *row.pressure_pa,
                                       row.temperature_k.value_or(kUnstatedTemperature)};
    law.hysteresis_crr = physics::solve_hysteresis_crr(flat_crr, law, tested);
    return physics::compute_crr(
        law, {physics::find_default_roughness_crr(Surface::kSmooth),
              law.reference_pressure_pa, physics::kRollingReferenceTemperature});
}

}  // namespace

ConvertedTest convert_test(const TestRow& row) {
    ConvertedTest test;
    test.refusal = find_missing(row);
    if (!test.refusal.empty()) return test;
    const double measured = row.power_w ? *row.power_w : *row.crr;
    const double flat = measured * find_factor_to_flat(row);
    test.crr = bring_to_common(flat, row);
    test.standard_error =
        bring_to_common(flat * (1.0 + find_relative_error(row)), row) - test.crr;
    if (std::min(flat, test.crr) < kLeastCrr || std::max(flat, test.crr) > kMostCrr) {
        test.refusal = fmt::format(
            "comes to Crr {:.4f}, no road tyre: check unit, load and per", flat);
    }
    return test;
}

}  // namespace flattail::evidence
