#include "scenario/setups/cautions.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

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

// A reading and its limit with as many digits as tell them apart.
struct ToldApart {
    std::string reading, limit;
};

ToldApart write_apart(double reading, double limit, int digits) {
    constexpr int kMostDigits = 4;
    const std::string first = fmt::format("{:.{}f}", reading, digits);
    const std::string second = fmt::format("{:.{}f}", limit, digits);
    if (first != second || digits == kMostDigits) return {first, second};
    return write_apart(reading, limit, digits + 1);
}

ToldApart write_pressures_apart(double reading_pa, double limit_pa) {
    const auto bar = write_apart(from_si(kBar, reading_pa), from_si(kBar, limit_pa), 1);
    const auto psi = write_apart(from_si(kPsi, reading_pa), from_si(kPsi, limit_pa), 0);
    return {fmt::format("{} bar ({} psi)", bar.reading, psi.reading),
            fmt::format("{} bar ({} psi)", bar.limit, psi.limit)};
}

struct Most {
    double pressure_pa = 0;
    const char* whose = "";
};

// The lowest of the limits that hold for a wheel, if any is stated.
std::optional<Most> find_most(const Tyre& tyre, const Rim& rim) {
    std::optional<Most> most;
    const auto take = [&](double pressure_pa, const char* whose) {
        if (!most || pressure_pa < most->pressure_pa) most = Most{pressure_pa, whose};
    };
    if (rim.kind == RimKind::kHookless) {
        take(kHooklessMost_pa, "what hookless rims may hold");
    }
    if (rim.most_pa) take(*rim.most_pa, "the rim's limit");
    if (tyre.most_pa) take(*tyre.most_pa, "the tyre's limit");
    return most;
}

void check_most(Judge& judge, const char* wheel, double hottest_pa, const Most& most) {
    // A reading equal to the limit keeps it.
    constexpr double kSlack = 1.0 + 1e-9;
    if (hottest_pa <= most.pressure_pa * kSlack) return;
    const ToldApart told = write_pressures_apart(hottest_pa, most.pressure_pa);
    judge.veto(fmt::format("{} wheel: {} at the hottest hour is over {}, {}", wheel,
                           told.reading, most.whose, told.limit));
}

void check_wheel(const Model& model, const Setup& setup, int index, Judge& judge) {
    const Rim& rim = setup.rim;
    const Wheel& wheel = setup.wheels[static_cast<std::size_t>(index)];
    const Tyre& tyre = model.tyres[static_cast<std::size_t>(wheel.tyre)];
    const char* name = kWheelNames[index];
    const double hottest_pa = find_hottest_gauge_pa(model, wheel.gauge_pa);
    if (const auto most = find_most(tyre, rim)) {
        check_most(judge, name, hottest_pa, *most);
    }
    if (tyre.least_pa && wheel.gauge_pa < *tyre.least_pa * (1 - 1e-9)) {
        const ToldApart told = write_pressures_apart(wheel.gauge_pa, *tyre.least_pa);
        judge.veto(fmt::format("{} wheel: {} is under the tyre's least, {}", name,
                               told.reading, told.limit));
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
