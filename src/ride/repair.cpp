#include "ride/repair.h"

#include <algorithm>
#include <cmath>

#include "chance/distribution.h"
#include "sampling/address.h"

namespace flattail::ride {

namespace {

// Draws of one point: sixteen numbers, the first for what happens once, then two per
// attempt.
constexpr std::uint32_t kDrawsPerPoint = 16;
enum Draw : std::uint32_t { kSealant = 0, kTyre, kHelp, kFirstAttempt };
constexpr int kMostAttempts = 6;  // fills the sixteen; nobody carries more tubes

class PointDraws {
  public:
    PointDraws(std::uint64_t seed, std::uint64_t day, std::uint32_t key)
        : address_{seed, kStream, day, key * kDrawsPerPoint} {}

    double uniform(std::uint32_t draw) const {
        sampling::Address address = address_;
        address.draw += draw;
        return sampling::draw_uniform(address);
    }

  private:
    static constexpr std::uint32_t kStream = sampling::hash_input_name("flat.repair");
    sampling::Address address_;
};

PointDraws draws_of(const sampling::DayBlock& days, const sampling::FlatPoint& point,
                    std::uint64_t seed) {
    return {seed, days.first_day + point.lane, point.key};
}

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

double compute_attempt_s(const scenario::Model& model, const sampling::DayBlock& days,
                         const sampling::FlatPoint& point, double luck, bool tubeless) {
    const scenario::Repair& repair = model.repair;
    const double rear = point.wheel == 1 ? repair.rear_extra_s : 0.0;
    const double front = value_of(days, repair.median_s, point.lane, 0.0) * luck;
    return (front + rear) * (tubeless ? repair.tubeless_ratio : 1.0);
}

// Officials hand out a wheel or do not come at all.
Stop wait_for_help(const scenario::Model& model, const sampling::DayBlock& days,
                   const sampling::FlatPoint& point, const PointDraws& draws,
                   Ending without, double standing_s) {
    Stop stop;
    stop.standing_s = standing_s;
    const double reached = value_of(days, model.repair.help_reached, point.lane, 0.0);
    if (draws.uniform(kHelp) < reached) {
        stop.standing_s += value_of(days, model.repair.help_wait_s, point.lane, 0.0);
        stop.refilled = true;
    } else {
        stop.ending = without;
    }
    return stop;
}

// How many spares can be tried.
int count_attempts(const LaneKit& kit) {
    const int filled = kit.has_pump ? kit.tubes : std::min(kit.tubes, kit.inflations);
    return std::min(filled, kMostAttempts);
}

double find_end_chance(const scenario::Model& model, const sampling::DayBlock& days,
                       int lane, const LaneKit& kit) {
    const scenario::Repair& repair = model.repair;
    const double alone = 1.0 - value_of(days, repair.help_reached, lane, 0.0);
    const double destroyed = value_of(days, repair.tyre_destroyed, lane, 0.0);
    const double fails = value_of(days, repair.first_try_fails, lane, 0.0);
    const double all_fail =
        repair.can_repair ? std::pow(fails, count_attempts(kit)) : 1.0;
    return alone * (destroyed + (1.0 - destroyed) * all_fail);
}

Stop mend_or_end(const scenario::Model& model, const sampling::DayBlock& days,
                 const sampling::FlatPoint& point, std::uint64_t seed, LaneKit& kit) {
    const PointDraws draws = draws_of(days, point, seed);
    const scenario::Repair& repair = model.repair;
    const double destroyed = value_of(days, repair.tyre_destroyed, point.lane, 0.0);
    if (draws.uniform(kTyre) < destroyed) {
        return wait_for_help(model, days, point, draws, Ending::kTyreDestroyed, 0.0);
    }
    if (!repair.can_repair) {
        return wait_for_help(model, days, point, draws, Ending::kCannotRepair, 0.0);
    }
    const double fails = value_of(days, repair.first_try_fails, point.lane, 0.0);
    const bool tubeless = is_tubeless(model, kit.wheels[point.wheel]);
    double standing = 0.0;
    for (std::uint32_t attempt = 0; attempt < kMostAttempts; ++attempt) {
        if (kit.tubes == 0 || (kit.inflations == 0 && !kit.has_pump)) break;
        kit.tubes -= 1;
        const bool by_cartridge = kit.inflations > 0;
        if (by_cartridge) kit.inflations -= 1;
        const std::uint32_t draw = kFirstAttempt + 2 * attempt;
        const double luck = draw_luck(model, draws.uniform(draw));
        standing += compute_attempt_s(model, days, point, luck, tubeless && attempt == 0);
        if (draws.uniform(draw + 1) < fails) continue;
        Stop mended;
        mended.standing_s = standing;
        mended.refilled = true;
        if (by_cartridge) mended.gas = scenario::FillGas::kCarbonDioxide;
        return mended;
    }
    return wait_for_help(model, days, point, draws, Ending::kNoSpare, standing);
}

}  // namespace

LaneKit pack_kit(const scenario::Setup& setup) {
    LaneKit kit;
    kit.tubes = setup.kit.tubes;
    kit.inflations = setup.kit.inflations;
    kit.has_pump = setup.kit.has_pump;
    for (std::size_t w = 0; w < kit.wheels.size(); ++w) {
        const scenario::Wheel& wheel = setup.wheels[w];
        kit.wheels[w] = {wheel.tyre, wheel.inner, wheel.wear_ratio, wheel.fitting_ratio};
    }
    return kit;
}

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
    return holds > 0.0 && draws_of(days, point, seed).uniform(kSealant) < holds;
}

Stop stop_for_flat(const scenario::Model& model, const sampling::DayBlock& days,
                   const sampling::FlatPoint& point, std::uint64_t seed, LaneKit& kit) {
    const double chance = find_end_chance(model, days, point.lane, kit);
    Stop stop = mend_or_end(model, days, point, seed, kit);
    stop.end_surprise = (stop.ending == Ending::kFinished ? 0.0 : 1.0) - chance;
    return stop;
}

}  // namespace flattail::ride
