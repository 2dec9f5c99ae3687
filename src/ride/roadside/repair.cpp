#include "ride/roadside/repair.h"

#include <algorithm>

#include "chance/distribution.h"
#include "chance/make_distribution.h"
#include "physics/flat_hazard.h"
#include "ride/roadside/point_draws.h"
#include "scenario/leak.h"

namespace flattail::ride {

namespace {

// A tube that is this much harder than what is felt as soft is worth riding on.
constexpr double kWorthRiding = 1.2;
// s of riding for which a rider fills the same leaking tube again. Assumption; shorter:
// a few more finish, an hour later.
constexpr double kWorthFilling = 300.0;

double value_of(const sampling::DayBlock& days, InputId id, int lane, double otherwise) {
    return id.is_set() ? days.of(id)[lane] : otherwise;
}

// The luck of one repair: a factor drawn for the point, not for the day.
double draw_luck(const scenario::Model& model, double u) {
    if (!model.repair.day_factor.is_set()) return 1.0;
    const Input& input = model.input(model.repair.day_factor);
    if (input.deviation == Deviation::kNone)
        return chance::quantile(input.knowledge, 0.5);
    return chance::quantile(input.luck, u);
}

bool is_tubeless(const scenario::Model& model, const sampling::RollingWheel& wheel) {
    return model.inners[static_cast<std::size_t>(wheel.inner)].kind ==
           scenario::InnerKind::kSealant;
}

// Whether tries turn out as drawn, or all fail while their chances are multiplied: the
// chance that a stop ends the day is so the product along the same path.
enum class Luck { kDrawn, kNone };

// One rider, one flat, everything that may be tried. Each try adds its time and tells
// whether the wheel holds.
class Mender {
  public:
    Mender(const Roadside& at, LaneKit& kit, Luck luck)
        : at_(at),
          repair_(at.model->repair),
          kit_(kit),
          luck_(luck),
          draws_(at.seed, *at.days, at.point),
          tubeless_(is_tubeless(*at.model, kit.wheels[at.point.wheel])) {}

    Stop mend() {
        if (repair_.help == scenario::Help::kCar) return take_wheel(Means::kCar);
        if (!at_.is_slow && is_destroyed() && !try_boot()) {
            return wait_for_officials(Ending::kTyreDestroyed);
        }
        if (!repair_.can_repair) return wait_for_officials(Ending::kCannotRepair);
        if (try_everything()) return stop_;
        return wait_for_officials(Ending::kNoSpare);
    }

    // Chance that the stop ends the day, before its draws.
    double find_end_chance() {
        if (repair_.help == scenario::Help::kCar) return 0.0;
        const double alone = 1.0 - chance_of(repair_.help_reached);
        if (!repair_.can_repair) return alone;
        const double destroyed =
            at_.is_slow ? 0.0
                        : chance_of(repair_.tyre_destroyed) * (1.0 - find_boot_chance());
        if (try_everything()) all_fail_ = 0.0;
        return alone * (destroyed + (1.0 - destroyed) * all_fail_);
    }

  private:
    double chance_of(InputId id, double otherwise = 0.0) const {
        return value_of(*at_.days, id, at_.point.lane, otherwise);
    }
    const scenario::Wheel& wheel() const { return at_.setup->wheels[at_.point.wheel]; }
    bool is_cut() const { return at_.point.cause == sampling::FlatCause::kCut; }
    EmptyWheel empty_wheel(double gauge_pa, bool holds_air) const {
        return {at_.model, at_.setup,         at_.point.wheel,
                gauge_pa,  at_.temperature_k, holds_air};
    }

    bool is_lucky(Chance chance, std::uint32_t attempt, double probability) {
        // From the top: a try fails where its number is below the chance of failing.
        if (luck_ == Luck::kDrawn) {
            return draws_.uniform(chance, attempt) >= 1.0 - probability;
        }
        all_fail_ *= 1.0 - probability;
        return false;
    }

    Stop take_wheel(Means means) {
        stop_.standing_s += value_of(*at_.days, repair_.help_wait_s, at_.point.lane, 0.0);
        stop_.means = means;
        stop_.gauge_pa = wheel().gauge_pa;
        stop_.carbon_dioxide_pa = 0.0;
        return stop_;
    }

    Stop wait_for_officials(Ending without) {
        if (draws_.uniform(Chance::kHelp) < chance_of(repair_.help_reached)) {
            return take_wheel(Means::kOfficials);
        }
        stop_.ending = without;
        return stop_;
    }

    // In the order of common sense: what is quick first, what leaves a doubt last.
    bool try_everything() {
        return try_spare_air() || try_plugs() || try_tubes() || try_can() ||
               try_patches() || try_last_air();
    }

    bool is_destroyed() const {
        return draws_.uniform(Chance::kTyre) < chance_of(repair_.tyre_destroyed);
    }

    double find_boot_chance() const {
        return kit_.boots > 0 ? chance_of(repair_.boot_saves, scenario::kBootSaves) : 0.0;
    }

    bool try_boot() {
        if (!repair_.can_repair) return false;
        if (draws_.uniform(Chance::kBoot) >= find_boot_chance()) return false;
        kit_.boots -= 1;
        stop_.booted = true;
        stop_.standing_s += repair_.boot_s;
        return true;
    }

    bool finish(Means means, const RoadsideFill& fill) {
        stop_.means = means;
        stop_.gauge_pa = fill.gauge_pa;
        stop_.carbon_dioxide_pa = fill.carbon_dioxide_pa;
        return true;
    }

    bool top_up() {
        const EmptyWheel soft = empty_wheel(at_.gauge_pa, true);
        if (!at_.is_slow || !can_fill(soft, kit_)) return false;
        const RoadsideFill fill = fill_at_roadside(soft, kit_);
        stop_.standing_s += repair_.top_up_s + fill.extra_s;
        return fill.gauge_pa > kWorthRiding * repair_.noticed_pa &&
               finish(Means::kTopUp, fill);
    }

    // Once, while there is more air than tubes want.
    bool try_spare_air() {
        const int left = at_.setup->kit.inflations() - kit_.cartridges_used;
        const bool spare = at_.setup->kit.has_pump() || left > kit_.tubes;
        return spare && !kit_.leaks[at_.point.wheel].topped_up && top_up();
    }

    // A leak that empties the tube again within minutes carries nobody home.
    bool try_last_air() {
        const bool again = kit_.leaks[at_.point.wheel].topped_up;
        return (!again || at_.lasted_s >= kWorthFilling) && top_up();
    }

    // Adds the time of one try, fills the wheel and tells whether that was all.
    struct Try {
        Means means;
        double work_s;
        EmptyWheel wheel;
        Chance holds;
        std::uint32_t attempt;
        double probability;
    };
    bool carry_out(const Try& one) {
        const RoadsideFill fill = fill_at_roadside(one.wheel, kit_);
        stop_.tries += 1;
        stop_.standing_s += one.work_s + fill.extra_s;
        return fill.filled && is_lucky(one.holds, one.attempt, one.probability) &&
               finish(one.means, fill);
    }

    bool try_plugs() {
        if (!tubeless_ || !is_cut()) return false;
        for (std::uint32_t i = 0; i < kMostOtherTries && kit_.plugs > 0; ++i) {
            const EmptyWheel tyre = empty_wheel(0.0, true);
            if (!can_fill(tyre, kit_)) return false;
            kit_.plugs -= 1;
            const double luck =
                draw_luck(*at_.model, draws_.uniform(Chance::kPlugLuck, i));
            if (carry_out({Means::kPlug, repair_.plug_s * luck, tyre, Chance::kPlugHolds,
                           i, chance_of(repair_.plug_holds, scenario::kPlugHolds)})) {
                return true;
            }
        }
        return false;
    }

    double by_hand() const {
        return at_.setup->kit.levers ? 1.0 : repair_.bare_hands_ratio;
    }

    double compute_tube_s(double luck, bool tubeless) const {
        const double rear = at_.point.wheel == 1 ? repair_.rear_extra_s : 0.0;
        const double front =
            value_of(*at_.days, repair_.median_s, at_.point.lane, 0.0) * luck;
        return (front + rear) * (tubeless ? repair_.tubeless_ratio : 1.0) * by_hand();
    }

    bool try_tubes() {
        if (!wheel().spare_fits) return false;
        const double holds = 1.0 - chance_of(repair_.first_try_fails);
        for (std::uint32_t i = 0; i < kMostTubeTries && kit_.tubes > 0; ++i) {
            const EmptyWheel tube = empty_wheel(0.0, false);
            if (!can_fill(tube, kit_)) return false;
            kit_.tubes -= 1;
            const double luck =
                draw_luck(*at_.model, draws_.uniform(Chance::kTubeLuck, i));
            if (carry_out({Means::kTube, compute_tube_s(luck, tubeless_ && i == 0), tube,
                           Chance::kTubeHolds, i, holds})) {
                return true;
            }
        }
        return false;
    }

    bool try_can() {
        if (kit_.sealant_cans == 0 || !is_cut() || !wheel().air_reaches) return false;
        kit_.sealant_cans -= 1;
        stop_.tries += 1;
        stop_.standing_s += repair_.can_s;
        if (!is_lucky(Chance::kCan, 0, chance_of(repair_.can_closes))) return false;
        const double gauge_pa = std::min(scenario::kSealantCanPressure, wheel().gauge_pa);
        return finish(Means::kSealantCan, {true, gauge_pa, 0.0, 0.0});
    }

    bool try_patches() {
        const bool has_hole = at_.point.cause != sampling::FlatCause::kFitting;
        if (tubeless_ || !has_hole) return false;
        std::uint32_t i = 0;
        for (; i < kMostOtherTries && kit_.patches > 0; ++i) {
            const EmptyWheel tube = empty_wheel(0.0, false);
            if (!can_fill(tube, kit_)) return false;
            kit_.patches -= 1;
            const double luck =
                draw_luck(*at_.model, draws_.uniform(Chance::kPatchLuck, i));
            if (carry_out({Means::kPatch, repair_.patch_s * luck * by_hand(), tube,
                           Chance::kPatchHolds, i, chance_of(repair_.patch_holds)})) {
                return true;
            }
        }
        // So many that did not hold: the others would not either.
        if (i == kMostOtherTries) kit_.patches = 0;
        return false;
    }

    const Roadside& at_;
    const scenario::Repair& repair_;
    LaneKit& kit_;
    Luck luck_;
    PointDraws draws_;
    bool tubeless_;
    double all_fail_ = 1.0;
    Stop stop_;
};

}  // namespace

double find_sealant_chance(const scenario::Model& model, const sampling::DayBlock& days,
                           sampling::FlatCause cause, int lane,
                           const sampling::RollingWheel& wheel) {
    if (!is_tubeless(model, wheel) || cause != sampling::FlatCause::kCut) return 0.0;
    const auto& inner = model.inners[static_cast<std::size_t>(wheel.inner)];
    return value_of(days, inner.sealant_holds, lane, 0.0);
}

bool try_sealant(const scenario::Model& model, const sampling::DayBlock& days,
                 const sampling::FlatPoint& point, std::uint64_t seed,
                 const sampling::RollingWheel& wheel) {
    const double holds = find_sealant_chance(model, days, point.cause, point.lane, wheel);
    return holds > 0.0 && PointDraws(seed, days, point).uniform(Chance::kSealant) < holds;
}

double find_slow_hole_m(const scenario::Model& model, const sampling::DayBlock& days,
                        const sampling::FlatPoint& point, std::uint64_t seed,
                        const sampling::RollingWheel& wheel) {
    if (is_tubeless(model, wheel) || point.cause != sampling::FlatCause::kCut) return 0.0;
    const PointDraws draws(seed, days, point);
    const double share = value_of(days, model.flats.slow_share, point.lane, 0.0);
    if (draws.uniform(Chance::kSlow) >= share) return 0.0;
    static const Distribution kHoles = chance::make_lognormal_median_spread(
        physics::kSlowHoleMedian, physics::kSlowHoleSpread);
    return chance::quantile(kHoles, draws.uniform(Chance::kHole));
}

Stop stop_for_flat(const Roadside& at, LaneKit& kit) {
    LaneKit before = kit;
    const double chance = Mender(at, before, Luck::kNone).find_end_chance();
    Stop stop = Mender(at, kit, Luck::kDrawn).mend();
    stop.end_surprise = (stop.ending == Ending::kFinished ? 0.0 : 1.0) - chance;
    return stop;
}

}  // namespace flattail::ride
