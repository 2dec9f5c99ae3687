#include "scenario/setups/cautions.h"

#include <fmt/format.h>

#include <algorithm>

#include "course/describe.h"
#include "scenario/setups/kit.h"
#include "scenario/values/spec.h"

namespace flattail::scenario {

namespace {

// Most pressure on straight-side rims. Source: common practice after ETRTO.
constexpr double kHooklessMost_pa = 5e5;
// A tyre must be at least this much wider than the rim is inside. Common practice, from
// memory; makers' charts differ by some millimetres.
constexpr double kLeastWidthRatio = 1.15;
// Height lost in one descent on which rim brakes make rims hot. Assumption: about 2 km at
// 10 %. Smaller values veto more setups.
constexpr double kLongDescent_m = 200.0;

constexpr const char* kWheelNames[kWheels] = {"front", "rear"};

class Judge {
  public:
    explicit Judge(Setup& setup) : setup_(setup) {}

    void warn(std::string text) {
        std::vector<std::string>& known = setup_.cautions;
        if (std::find(known.begin(), known.end(), text) == known.end()) {
            known.push_back(std::move(text));
        }
    }

    void veto(std::string text) {
        warn(std::move(text));
        setup_.vetoed = true;
    }

  private:
    Setup& setup_;
};

// When the stated pressures hold: at the pump, else at the start.
double find_temperature_at_pump(const Model& model) {
    if (model.preparation.pumped_at_k) return *model.preparation.pumped_at_k;
    const std::vector<ForecastRow>& rows = model.weather.rows;
    const double clock_s = model.race.start_clock_s - model.preparation.before_s;
    const ForecastRow* at = &rows.front();
    for (const ForecastRow& row : rows) {
        if (row.clock_s <= clock_s) at = &row;
    }
    return at->temperature_k;
}

// Pressure follows absolute temperature once the wheel is pumped.
double find_hottest_gauge_pa(const Model& model, double gauge_pa) {
    const double pump_k = find_temperature_at_pump(model);
    double hottest_k = pump_k;
    for (const ForecastRow& row : model.weather.rows) {
        hottest_k = std::max(hottest_k, row.temperature_k);
    }
    const double outside_pa = model.weather.pressure_pa;
    return (gauge_pa + outside_pa) * hottest_k / pump_k - outside_pa;
}

std::string write_pressure(double pascal) {
    return fmt::format("{:.1f} bar ({:.0f} psi)", from_si(kBar, pascal),
                       from_si(kPsi, pascal));
}

void check_most(Judge& judge, const char* wheel, double hottest_pa, double most_pa,
                const std::string& whose) {
    // A reading equal to the limit keeps it.
    constexpr double kSlack = 1.0 + 1e-9;
    if (hottest_pa <= most_pa * kSlack) return;
    judge.veto(fmt::format("{} wheel: {} at the hottest hour is over {}, {}", wheel,
                           write_pressure(hottest_pa), whose, write_pressure(most_pa)));
}

void check_wheel(const Model& model, const Setup& setup, int index, Judge& judge) {
    const Rim& rim = setup.rim;
    const Wheel& wheel = setup.wheels[static_cast<std::size_t>(index)];
    const Tyre& tyre = model.tyres[static_cast<std::size_t>(wheel.tyre)];
    const char* name = kWheelNames[index];
    const double hottest_pa = find_hottest_gauge_pa(model, wheel.gauge_pa);
    if (tyre.most_pa) {
        check_most(judge, name, hottest_pa, *tyre.most_pa, "the tyre's limit");
    }
    if (rim.most_pa) {
        check_most(judge, name, hottest_pa, *rim.most_pa, "the rim's limit");
    }
    if (rim.kind == RimKind::kHookless) {
        check_most(judge, name, hottest_pa, kHooklessMost_pa,
                   "what hookless rims may hold");
    }
    if (tyre.least_pa && wheel.gauge_pa < *tyre.least_pa * (1 - 1e-9)) {
        judge.veto(fmt::format("{} wheel: {} is under the tyre's least, {}", name,
                               write_pressure(wheel.gauge_pa),
                               write_pressure(*tyre.least_pa)));
    }
    if (rim.inner_width_m && tyre.width_m < kLeastWidthRatio * *rim.inner_width_m) {
        judge.veto(
            fmt::format("{} wheel: a tyre of {} mm is too narrow for a rim of {} mm "
                        "inside",
                        name, write_number(tyre.width_m * 1000),
                        write_number(*rim.inner_width_m * 1000)));
    }
}

// A hot rim can burst a thin tube. Source: common practice of makers and coaches.
void check_heat(const Model& model, const Setup& setup, Judge& judge) {
    const Rim& rim = setup.rim;
    if (!model.course) return;
    const double drop_m = course::describe_course(*model.course).longest_descent.drop_m;
    if (drop_m < kLongDescent_m) return;
    for (const Wheel& wheel : setup.wheels) {
        const Inner& inner = model.inners[static_cast<std::size_t>(wheel.inner)];
        const bool thin = inner.material == InnerMaterial::kLatex ||
                          inner.material == InnerMaterial::kPlastic;
        if (!thin || rim.brake == Brake::kDisc) continue;
        if (rim.brake == Brake::kRim) {
            judge.veto(fmt::format("{} tubes with rim brakes on a descent of {:.0f} m",
                                   inner.name, drop_m));
        } else {
            judge.warn(
                fmt::format("{} tubes on a descent of {:.0f} m: only with disc "
                            "brakes (brake not stated)",
                            inner.name, drop_m));
        }
    }
}

void check_air(const Kit& kit, Judge& judge) {
    if (kit.inflations() == 0 && !kit.has_pump()) {
        judge.warn("no pump and no cartridge: a spare tube cannot be filled");
    } else if (kit.inflations() < kit.tubes && !kit.has_pump()) {
        judge.warn(fmt::format("{} tubes, but only {} to fill them with", kit.tubes,
                               kit.inflations() == 1
                                   ? std::string("one cartridge")
                                   : fmt::format("{} cartridges", kit.inflations())));
    }
}

// Rims deeper than this want valves longer than the usual ones of 48 to 60 mm. Common
// practice.
constexpr double kDeepRim_m = 0.035;

void check_fit(const Kit& kit, const Wheel& wheel, const char* name, Judge& judge) {
    if (kit.tubes > 0 && !wheel.spare_fits) {
        judge.warn(fmt::format(
            "{} wheel: the spare's valve of {} mm is too short for a rim {} mm deep{}",
            name, write_number(kit.valve_m * 1000),
            write_number(wheel.rim_depth_m * 1000),
            kit.valve_extender && !kit.core_tool
                ? " (the extender cannot be fitted without a core tool)"
                : ""));
    }
    if (kit.tubes > 0 && kit.valve_m <= 0.0 && wheel.rim_depth_m > kDeepRim_m) {
        judge.warn(fmt::format(
            "{} wheel: rim {} mm deep, length of the spare's valve not stated: it is "
            "taken to fit",
            name, write_number(wheel.rim_depth_m * 1000)));
    }
    if (!wheel.air_reaches) {
        judge.warn(fmt::format(
            "{} wheel: no disc adaptor: a flat in this disc cannot be filled", name));
    }
}

void check_kit(const Model& model, const Setup& setup, Judge& judge) {
    const Kit& kit = setup.kit;
    if (!model.repair.can_repair || model.repair.help == Help::kCar) return;
    if (kit.tubes == 0) {
        judge.warn("no spare tube: a flat that nothing else mends ends the race");
    } else {
        check_air(kit, judge);
        if (!kit.levers) judge.warn("no levers: a tight tyre comes off slowly by hand");
    }
    for (int w = 0; w < kWheels; ++w) {
        check_fit(kit, setup.wheels[static_cast<std::size_t>(w)], kWheelNames[w], judge);
    }
    const bool latex_spare =
        kit.spare_inner >= 0 &&
        model.inners[static_cast<std::size_t>(kit.spare_inner)].material ==
            InnerMaterial::kLatex;
    if (latex_spare && !kit.has_pump()) {
        judge.warn("latex spare filled by cartridge: CO2 leaks out during the race");
    }
}

}  // namespace

void add_cautions(const Model& model, Setup& setup) {
    Judge judge(setup);
    for (int wheel = 0; wheel < kWheels; ++wheel) {
        check_wheel(model, setup, wheel, judge);
    }
    check_heat(model, setup, judge);
    check_kit(model, setup, judge);
}

void check_least_kit(const Kit& least, Setup& setup) {
    const std::vector<std::string> missing = list_missing(least, setup.kit);
    if (missing.empty()) return;
    Judge(setup).veto(fmt::format("carries less than the minimum kit: {} short",
                                  fmt::join(missing, ", ")));
}

}  // namespace flattail::scenario
