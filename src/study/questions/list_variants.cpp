#include "study/questions/list_variants.h"

#include <fmt/format.h>

#include <cmath>

#include "scenario/setups/cautions.h"
#include "study/kit/kit_trials.h"
#include "study/pressure/limits.h"

namespace flattail::study {

namespace {

using scenario::Model;
using scenario::Setup;

// Steps that a rider's gauge tells apart and that no one would call another setup
// (assumption).
constexpr double kPressureSteps_psi[] = {-10.0, -5.0, 5.0, 10.0};
// NIST SP 811, appendix B.8.
constexpr double kPascalPerPsi = 6894.757;
constexpr double kPascalPerBar = 1e5;

std::string describe_step(double step_psi) {
    const double size_psi = std::abs(step_psi);
    return fmt::format("{:.0f} psi ({:.1f} bar) {}", size_psi,
                       size_psi * kPascalPerPsi / kPascalPerBar,
                       step_psi < 0.0 ? "less" : "more");
}

// Nothing for a wheel whose limits are not all stated.
std::vector<PumpBounds> find_bounds(const Prepared& prepared, const Setup& setup) {
    std::vector<PumpBounds> bounds;
    for (int wheel = 0; wheel < static_cast<int>(setup.wheels.size()); ++wheel) {
        const PumpLimits limits = find_pump_limits(*prepared.model, setup, wheel);
        if (limits.most) bounds.push_back(find_pump_bounds(prepared, limits));
    }
    return bounds;
}

bool is_within(const Setup& setup, const std::vector<PumpBounds>& bounds) {
    for (std::size_t w = 0; w < setup.wheels.size(); ++w) {
        const double gauge_pa = setup.wheels[w].gauge_pa;
        if (gauge_pa < bounds[w].lowest.gauge_pa) return false;
        if (gauge_pa > bounds[w].highest.gauge_pa) return false;
    }
    return true;
}

void add_pressures(const Setup& setup, const std::vector<PumpBounds>& bounds,
                   std::vector<Variant>& variants) {
    for (const double step_psi : kPressureSteps_psi) {
        Setup other = setup;
        for (scenario::Wheel& wheel : other.wheels) {
            wheel.gauge_pa += step_psi * kPascalPerPsi;
        }
        if (!is_within(other, bounds)) continue;
        variants.push_back({Varied::kPressure, describe_step(step_psi), other, ""});
    }
}

std::string describe_trial(const KitTrial& trial) {
    if (!trial.is_added) {
        return trial.carried > 1 ? fmt::format("one {} less", trial.item)
                                 : "without " + trial.item;
    }
    return trial.carried > 0 ? fmt::format("one {} more", trial.item)
                             : "with a " + trial.item;
}

// The setup lacks the minimum kit now and did not before.
std::string judge_kit(const Model& model, Setup setup) {
    if (!model.decision.least_kit) return "";
    setup.vetoed = false;
    const std::size_t known = setup.cautions.size();
    scenario::check_least_kit(*model.decision.least_kit, setup);
    return setup.vetoed && setup.cautions.size() > known ? setup.cautions.back() : "";
}

void add_kits(const Model& model, const Setup& setup, std::vector<Variant>& variants) {
    for (const KitTrial& trial : list_kit_trials(model, setup)) {
        Variant variant{Varied::kKit, describe_trial(trial), trial.changed, ""};
        variant.setup.kit.mass_kg += (trial.is_added ? 1.0 : -1.0) * trial.weighs_kg;
        variant.ruled_out = judge_kit(model, variant.setup);
        variants.push_back(std::move(variant));
    }
}

}  // namespace

VariantList list_variants(const Prepared& prepared, int index) {
    const Model& model = *prepared.model;
    const Setup& setup = model.setups[static_cast<std::size_t>(index)];
    VariantList list;
    list.variants.push_back({Varied::kNothing, "as it is", setup, ""});
    const std::vector<PumpBounds> bounds = find_bounds(prepared, setup);
    list.has_limits = bounds.size() == setup.wheels.size();
    if (list.has_limits) add_pressures(setup, bounds, list.variants);
    add_kits(model, setup, list.variants);
    return list;
}

}  // namespace flattail::study
