#include "study/questions/model_changes.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "chance/distribution.h"
#include "physics/constants.h"
#include "physics/flat_hazard.h"
#include "ride/road.h"
#include "scenario/values/move_distribution.h"

namespace flattail::study {

namespace {

using scenario::Model;

constexpr int kScanSteps = 33;
// Ranges of reason, assumptions: six times fewer or more flats than thought holds every
// range in the table of defaults; a tube changed in 2 min is a mechanic's, 30 min a
// beginner's bad day; riders are known to themselves within half; gauges err by 5 psi at
// most, 12 is misreading; 20 W hold the gap between the fastest and the toughest tyres.
constexpr double kMostRateFactor = 6.0;
constexpr double kLeastRepairMin = 2.0, kMostRepairMin = 30.0;
constexpr double kLeastPower = 0.6, kMostPower = 1.5;
constexpr double kMostPressurePsi = 12.0;
constexpr double kMostGainW = 20.0;

constexpr double kSecondsPerMinute = 60.0;
// NIST SP 811, appendix B.8.
constexpr double kPascalPerPsi = 6894.757;
// Watts a pair as tests state them: 85 kg at 45 km/h.
constexpr double kTestLoadKg = 85.0;
constexpr double kTestSpeedMS = 12.5;
// Distance after which a tube counts as ridden in.
constexpr double kRiddenInM = 50e3;

double crr_per_watt() {
    return 1.0 / (kTestLoadKg * physics::kStandardGravity * kTestSpeedMS);
}

Input make_point(const char* name, double value) {
    Input input;
    input.name = name;
    input.knowledge.a = value;
    return input;
}

InputId append(Model& model, Input input) {
    model.inputs.push_back(std::move(input));
    return {static_cast<int>(model.inputs.size()) - 1};
}

// A copy of an input under the same random numbers, for some wheels only.
Input copy_input(const Model& model, InputId id, const char* name, double otherwise) {
    return id.is_set() ? model.input(id) : make_point(name, otherwise);
}

Input multiply(Input input, double factor) {
    input.knowledge = scenario::scale_distribution(input.knowledge, factor);
    if (input.deviation == Deviation::kAdd) {
        input.luck = scenario::scale_distribution(input.luck, factor);
    }
    return input;
}

Input add(Input input, double step) {
    input.knowledge = scenario::shift_distribution(input.knowledge, step);
    return input;
}

// Gives every setup but the one compared with inners of its own.
template <class Edit>
void edit_inners(Model& model, Edit edit) {
    std::map<int, int> copies;
    for (std::size_t s = 0; s < model.setups.size(); ++s) {
        if (static_cast<int>(s) == model.decision.against) continue;
        for (scenario::Wheel& wheel : model.setups[s].wheels) {
            const auto [found, is_new] =
                copies.try_emplace(wheel.inner, static_cast<int>(model.inners.size()));
            if (is_new) {
                scenario::Inner inner =
                    model.inners[static_cast<std::size_t>(wheel.inner)];
                edit(inner);
                model.inners.push_back(std::move(inner));
            }
            wheel.inner = found->second;
        }
    }
}

void scale_flats(Model& model, double factor) {
    edit_inners(model, [&](scenario::Inner& inner) {
        inner.cut_ratio = append(
            model, multiply(copy_input(model, inner.cut_ratio, "why.cuts", 1.0), factor));
    });
    for (std::size_t s = 0; s < model.setups.size(); ++s) {
        if (static_cast<int>(s) == model.decision.against) continue;
        for (scenario::Wheel& wheel : model.setups[s].wheels) {
            wheel.fitting_ratio *= factor;
        }
    }
}

void gain_rolling(Model& model, double watts) {
    edit_inners(model, [&](scenario::Inner& inner) {
        inner.crr_change =
            append(model, add(copy_input(model, inner.crr_change, "why.rolling", 0.0),
                              -watts * crr_per_watt()));
    });
}

Input& get_input(Model& model, InputId id) {
    return model.inputs[static_cast<std::size_t>(id.index)];
}

std::vector<double> spread_evenly(double from, double to, bool by_ratio) {
    std::vector<double> values;
    for (int i = 0; i < kScanSteps; ++i) {
        const double share = i / static_cast<double>(kScanSteps - 1);
        values.push_back(by_ratio ? from * std::pow(to / from, share)
                                  : from + (to - from) * share);
    }
    return values;
}

// Averages, because the mean difference follows them: what is known of a tube is skewed.
double find_mean(const Model& model, InputId id) {
    return id.is_set() ? chance::mean(model.input(id).knowledge) : 0.0;
}

double find_crr(const Model& model, const scenario::Setup& setup) {
    double crr = 0.0;
    for (const scenario::Wheel& wheel : setup.wheels) {
        const auto& tyre = model.tyres[static_cast<std::size_t>(wheel.tyre)];
        const auto& inner = model.inners[static_cast<std::size_t>(wheel.inner)];
        crr += wheel.load_share *
               (find_mean(model, tyre.crr_change) + find_mean(model, inner.crr_change) -
                find_mean(model, setup.rolling_saved_crr));
    }
    return crr;
}

}  // namespace

Model change_model(const Model& model, BreakEvenQuestion question, double x) {
    Model changed = model;
    switch (question) {
        case BreakEvenQuestion::kFlatRate:
            if (x != 1.0) scale_flats(changed, x);
            break;
        case BreakEvenQuestion::kRepairTime: {
            Input& repair = get_input(changed, model.repair.median_s);
            repair = multiply(repair, x / find_value_now(model, question));
            break;
        }
        case BreakEvenQuestion::kPower: {
            Input& power = get_input(changed, model.rider.power_w);
            power = multiply(power, x / find_value_now(model, question));
            break;
        }
        case BreakEvenQuestion::kPressure: {
            Input& gauge = get_input(changed, model.preparation.gauge_error_pa);
            gauge = add(gauge, (x - find_value_now(model, question)) * kPascalPerPsi);
            break;
        }
        case BreakEvenQuestion::kRollingGain:
            if (x != 0.0) gain_rolling(changed, x);
            break;
    }
    return changed;
}

double find_value_now(const Model& model, BreakEvenQuestion question) {
    switch (question) {
        case BreakEvenQuestion::kFlatRate:
            return 1.0;
        case BreakEvenQuestion::kRepairTime:
            return ride::find_median(model, model.repair.median_s) / kSecondsPerMinute;
        case BreakEvenQuestion::kPower:
            return ride::find_median(model, model.rider.power_w);
        case BreakEvenQuestion::kPressure:
            return ride::find_median(model, model.preparation.gauge_error_pa) /
                   kPascalPerPsi;
        case BreakEvenQuestion::kRollingGain:
            break;
    }
    return 0.0;
}

std::string find_reason_not_to_ask(const Model& model, BreakEvenQuestion question) {
    if (question == BreakEvenQuestion::kRepairTime && !model.repair.can_repair) {
        return "this rider does not repair";
    }
    return "";
}

std::vector<double> list_scan_values(const Model& model, BreakEvenQuestion question) {
    const double now = find_value_now(model, question);
    switch (question) {
        case BreakEvenQuestion::kFlatRate: {
            std::vector<double> values =
                spread_evenly(1.0 / kMostRateFactor, kMostRateFactor, true);
            values[kScanSteps / 2] = 1.0;  // to the bit: now
            return values;
        }
        case BreakEvenQuestion::kRepairTime:
            return spread_evenly(kLeastRepairMin, kMostRepairMin, true);
        case BreakEvenQuestion::kPower:
            return spread_evenly(kLeastPower * now, kMostPower * now, false);
        case BreakEvenQuestion::kPressure:
            return spread_evenly(-kMostPressurePsi, kMostPressurePsi, false);
        case BreakEvenQuestion::kRollingGain:
            break;
    }
    return spread_evenly(-kMostGainW, kMostGainW, false);
}

double find_rolling_gain_w(const Model& model, int setup) {
    const auto& own = model.setups[static_cast<std::size_t>(setup)];
    const auto& other = model.setups[static_cast<std::size_t>(model.decision.against)];
    return (find_crr(model, other) - find_crr(model, own)) / crr_per_watt();
}

Model ride_tubes_in(const Model& model) {
    const double left = std::exp(-kRiddenInM / physics::kFittingFadeLength);
    Model changed = model;
    for (scenario::Setup& setup : changed.setups) {
        for (scenario::Wheel& wheel : setup.wheels) {
            wheel.fitting_ratio *= left;
        }
    }
    return changed;
}

}  // namespace flattail::study
