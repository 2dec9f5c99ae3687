#include "scenario/setups/leaks.h"

#include <fmt/format.h>

#include <cmath>

#include "chance/distribution.h"
#include "physics/inflation.h"
#include "scenario/leak.h"
#include "scenario/values/move_distribution.h"

namespace flattail::scenario {

namespace {

using input::Dimension;
using input::Node;
using physics::ObservedLoss;
using physics::WallMaterial;

constexpr double kHour_s = 3600.0;
// What default losses were seen from and over. Source: common practice.
const ObservedLoss kUsualConditions{75.0 * kPsi.si, 0.0, 10.0 * kHour_s,
                                    to_si(kCelsius, 20.0)};
// A tube that loses more than this share of its pressure while it is watched cannot be
// calibrated from it.
constexpr double kMostShare = 0.9;

constexpr const char* kLeakHint =
    "write { loses = \"5 psi\", in = \"10 h\", from = \"75 psi\" }, { wall = \"0.5 mm\" "
    "} or { rate = \"1 % per h\" }";

enum class Filling { kAir, kCarbonDioxide };

std::string describe(const ObservedLoss& seen, Filling filling) {
    return fmt::format("{} lost in {} h from {} psi",
                       filling == Filling::kAir ? "air" : "CO2",
                       write_number(seen.duration_s / kHour_s),
                       write_number(from_si(kPsi, seen.start_gauge_pa)));
}

Spec make_loss_spec(const std::string& inner, const ObservedLoss& seen, Filling filling) {
    const bool is_air = filling == Filling::kAir;
    Spec spec;
    spec.name = fmt::format("inner.{}.{}", inner, is_air ? "leak" : "leak.co2");
    spec.label = fmt::format("{}: {}", inner, describe(seen, filling));
    spec.dimension = Dimension::kPressure;
    spec.unit = kPsi;
    spec.most = kMostShare * from_si(kPsi, seen.start_gauge_pa);
    spec.advice = "write what the gauge lost, like \"5 psi\", below what it started from";
    return spec;
}

Spec with_loss(Spec spec, const UsualLoss& usual) {
    spec.usual = {
        Form::kLognormalRange,
        usual.low,
        usual.mid,
        usual.high,
        usual.origin,
        usual.origin == Origin::kCommonPractice ? "common practice" : "assumption"};
    return spec;
}

double find_middle(const Input& input) { return chance::quantile(input.knowledge, 0.5); }

// Calibrates the walls once both observations are there.
void finish(LeakPart& part, WallMaterial material) {
    part.leak.air.lost_pa = find_middle(part.air_loss_pa);
    if (part.carbon_dioxide_loss_pa) {
        part.leak.carbon_dioxide.lost_pa = find_middle(*part.carbon_dioxide_loss_pa);
    }
    calibrate(part.leak, material);
}

Input make_usual_loss(const std::string& inner, Filling filling, const UsualLoss& usual) {
    return make_usual_input(
        with_loss(make_loss_spec(inner, kUsualConditions, filling), usual));
}

// in, from and at of an observation; nothing after a problem.
std::optional<ObservedLoss> read_conditions(Table& table) {
    static const Spec kIn{"inner.leak.in",
                          "",
                          Dimension::kTime,
                          kHour,
                          Scale::kPositive,
                          Layer::kKnowledge,
                          0.1,
                          24.0 * 100.0,
                          "write how long it took, like \"10 h\""};
    static const Spec kFrom{"inner.leak.from",
                            "",
                            Dimension::kPressure,
                            kBar,
                            Scale::kPositive,
                            Layer::kKnowledge,
                            0.5,
                            15.0,
                            "write the pressure that it started from, like \"75 psi\""};
    static const Spec kAt{"inner.leak.at",
                          "",
                          Dimension::kTemperature,
                          kCelsius,
                          Scale::kSigned,
                          Layer::kKnowledge,
                          -10.0,
                          50.0,
                          "write the temperature meanwhile, like \"20 C\""};
    const auto in_s = table.find_value(kIn);
    const auto from_pa = table.find_value(kFrom);
    const auto at_k = table.find_value(kAt);
    for (const Spec* needed : {&kIn, &kFrom}) {
        if (table.find(key_of(*needed))) continue;
        table.problems().add_error(
            table.place(), fmt::format("{} has no {}", table.name(), key_of(*needed)),
            needed->advice);
    }
    if (!in_s || !from_pa) return std::nullopt;
    ObservedLoss seen = kUsualConditions;
    seen.duration_s = *in_s;
    seen.start_gauge_pa = *from_pa;
    seen.temperature_k = at_k.value_or(kUsualConditions.temperature_k);
    return seen;
}

// { loses, in, from, at }.
void read_loss(Table& table, const std::string& inner, Filling filling,
               ObservedLoss& seen, Input& loss) {
    const Node* loses = table.find("loses");
    if (!loses) {
        table.problems().add_error(table.place(),
                                   fmt::format("{} has no loses", table.name()),
                                   "write what the gauge lost, loses = \"5 psi\"");
    }
    const auto conditions = read_conditions(table);
    if (!loses || !conditions) return;
    seen = *conditions;
    loss = read_input_at(loses, make_loss_spec(inner, seen, filling), table.problems());
}

// Bare-rubber walls leak faster than worn-in ones: latex 1.5 to 2 times (common
// practice). What a wall of stated thickness loses is therefore a range (assumption).
UsualLoss guess_from_wall(WallMaterial material, double thickness_m) {
    physics::TubeWall wall{material, thickness_m, 0.014};
    const auto start = physics::pump_with_air(kUsualConditions.start_gauge_pa,
                                              kUsualConditions.temperature_k);
    const auto end = physics::follow_stay(
        start, physics::make_wall_leak(wall),
        {kUsualConditions.duration_s, kUsualConditions.temperature_k});
    const double bare_psi =
        (physics::sum_pressure_pa(start.mix) - physics::sum_pressure_pa(end.mix)) /
        kPsi.si;
    const bool is_latex = material == WallMaterial::kNaturalRubber;
    const double over = is_latex ? 1.75 : 1.0;
    return {bare_psi / over / 1.5, bare_psi / over, bare_psi / over * 1.5,
            Origin::kAssumption};
}

void read_wall(Table& table, const std::string& inner, WallMaterial& material,
               Input& loss) {
    static const Spec kWall{"inner.leak.wall",
                            "",
                            Dimension::kLength,
                            kMillimetre,
                            Scale::kPositive,
                            Layer::kKnowledge,
                            0.1,
                            3.0,
                            "write the wall inside the tyre, like \"0.5 mm\""};
    static const Words kMaterials = {"latex", "butyl"};
    const auto thickness_m = table.find_value(kWall);
    if (const auto word = table.find_word("material", kMaterials)) {
        material = *word == 0 ? WallMaterial::kNaturalRubber : WallMaterial::kButyl;
    }
    if (!thickness_m) return;
    loss = make_usual_loss(inner, Filling::kAir, guess_from_wall(material, *thickness_m));
    loss.source = "from the wall stated, METHOD 5.4";
    loss.place = table.place();
}

// A share of the gauge pressure per time is what is lost in an hour of it.
void read_rate(Table& table, const std::string& inner, ObservedLoss& seen, Input& loss) {
    static const Spec kRate{"inner.leak.rate",
                            "",
                            Dimension::kRatioPerTime,
                            kPercentPerHour,
                            Scale::kPositive,
                            Layer::kKnowledge,
                            0.0,
                            90.0,
                            "write the share lost, like \"1 % per h\""};
    seen = kUsualConditions;
    seen.duration_s = kHour_s;
    const Input rate = read_input_at(table.find("rate"), kRate, table.problems());
    const Spec named = make_loss_spec(inner, seen, Filling::kAir);
    loss = scale_input(rate, seen.start_gauge_pa * seen.duration_s);
    loss.name = named.name;
    loss.label = named.label;
    loss.unit = named.unit.name;
    loss.unit_si = named.unit.si;
    loss.unit_zero = named.unit.zero;
}

// One way of saying it, or none; more is a problem.
const char* find_way(Table& table) {
    const char* found = nullptr;
    for (const char* way : {"loses", "wall", "rate"}) {
        const Node* node = table.find(way);
        if (!node) continue;
        if (found) {
            table.add_error(*node,
                            fmt::format("inner.leak.{} and inner.leak.{} say the same "
                                        "thing twice",
                                        found, way),
                            "keep one of them");
            for (const char* key : {"in", "from", "at", "material"}) table.find(key);
            return nullptr;
        }
        found = way;
    }
    // Beside a mistake in the way itself these are no mistakes of their own.
    if (!found) {
        for (const char* key : {"in", "from", "at", "material"}) table.find(key);
    }
    if (!found && !table.find("co2")) {
        table.problems().add_error(table.place(), "inner.leak says nothing of the loss",
                                   kLeakHint);
    }
    return found;
}

}  // namespace

LeakPart make_usual_leak(const std::string& inner, const UsualLeak& usual) {
    LeakPart part;
    part.leak.air = part.leak.carbon_dioxide = kUsualConditions;
    part.air_loss_pa = make_usual_loss(inner, Filling::kAir, usual.air);
    if (usual.carbon_dioxide) {
        part.carbon_dioxide_loss_pa =
            make_usual_loss(inner, Filling::kCarbonDioxide, *usual.carbon_dioxide);
    }
    finish(part, usual.material);
    return part;
}

LeakPart read_leak(Table& inner_table, const std::string& inner, const UsualLeak& usual) {
    LeakPart part = make_usual_leak(inner, usual);
    if (!inner_table.find("leak")) return part;
    Table table = inner_table.find_table("leak");
    if (!table.is_stated()) return part;
    WallMaterial material = usual.material;
    const char* way = find_way(table);
    const std::string said = way ? way : "";
    if (said == "loses") {
        read_loss(table, inner, Filling::kAir, part.leak.air, part.air_loss_pa);
    } else if (said == "wall") {
        read_wall(table, inner, material, part.air_loss_pa);
    } else if (said == "rate") {
        read_rate(table, inner, part.leak.air, part.air_loss_pa);
    }
    if (table.find("co2")) {
        Table co2 = table.find_table("co2");
        Input loss = make_usual_loss(inner, Filling::kCarbonDioxide, usual.air);
        read_loss(co2, inner, Filling::kCarbonDioxide, part.leak.carbon_dioxide, loss);
        part.carbon_dioxide_loss_pa = std::move(loss);
        co2.reject_unknown_keys();
    }
    // A key of another way is a key too many; those of this way have been asked for.
    table.reject_unknown_keys();
    finish(part, material);
    return part;
}

}  // namespace flattail::scenario
