#include "scenario/fingerprint.h"

#include <fmt/format.h>

#include <cstdint>
#include <string_view>

namespace flattail::scenario {

namespace {

// Takes values in order; each is closed by a mark, so that none runs into the next.
class Hash {
  public:
    Hash& add(std::string_view text) {
        for (const char letter : text) take(static_cast<unsigned char>(letter));
        take(0);
        return *this;
    }
    Hash& add(double value) { return add(fmt::format("{}", value == 0.0 ? 0.0 : value)); }
    Hash& add(InputId id) { return add(fmt::format("#{}", id.index)); }
    Hash& add_flag(bool flag) { return add(flag ? 1.0 : 0.0); }
    template <class Enum>
    Hash& add_kind(Enum kind) {
        return add(fmt::format("@{}", static_cast<int>(kind)));
    }
    std::string digits() const { return fmt::format("{:016x}", state_); }

  private:
    void take(unsigned char byte) {
        constexpr std::uint64_t kPrime = 0x100000001b3u;
        state_ = (state_ ^ byte) * kPrime;
    }
    std::uint64_t state_ = 0xcbf29ce484222325u;
};

void add_distribution(Hash& hash, const Distribution& d) {
    hash.add_kind(d.shape).add(d.a).add(d.b).add(d.c).add(d.lower).add(d.upper);
    for (const double value : d.table) hash.add(value);
}

void add_inputs(Hash& hash, const Model& model) {
    for (const Input& input : model.inputs) {
        hash.add(input.name).add_kind(input.deviation);
        if (!input.draw_name.empty()) hash.add(input.draw_name);
        add_distribution(hash, input.knowledge);
        if (input.deviation != Deviation::kNone) add_distribution(hash, input.luck);
    }
    for (const Correlation& together : model.correlations) {
        hash.add_kind(together.layer);
        for (const InputId id : together.inputs) hash.add(id);
        for (const double entry : together.matrix) hash.add(entry);
    }
}

void add_race(Hash& hash, const Model& model) {
    const Race& race = model.race;
    hash.add(race.start_clock_s).add(race.cutoff_s.value_or(-1.0));
    if (race.swim_s.is_set()) {
        hash.add(race.wave_clock_s).add(race.swim_s).add(race.transition_s);
    }
    for (const Cutoff& cutoff : race.cutoffs) {
        if (cutoff.is_at_finish() && !cutoff.is_by_clock()) continue;  // cutoff_s is it
        hash.add(cutoff.within_s).add(cutoff.clock_s).add(cutoff.at_m);
    }
    for (const Goal& goal : race.goals) hash.add(goal.time_s);
    hash.add_kind(race.start).add(race.speed_limit_m_s).add_kind(model.stop_cost);
    const Rider& rider = model.rider;
    for (const physics::YawRow& row : rider.drag_by_yaw) {
        hash.add(row.yaw_rad).add(row.factor);
    }
    hash.add(rider.fade_from_s).add(rider.drivetrain_efficiency);
    hash.add(rider.wheel_inertia_kg).add_kind(rider.pacing).add(rider.power_variation_sd);
    hash.add(rider.power_variation_length_m).add(rider.launch_force_n);
}

void add_surroundings(Hash& hash, const Model& model) {
    const Weather& weather = model.weather;
    for (const ForecastRow& row : weather.rows) {
        hash.add(row.clock_s).add(row.temperature_k).add(row.wind_m_s);
        hash.add(row.from_rad).add(row.rain_chance);
        if (row.gust_ratio) hash.add(*row.gust_ratio);
    }
    hash.add(weather.gust_ratio).add(weather.gust_length_m);
    hash.add(weather.pressure_pa).add(weather.humidity);
    hash.add(model.road.wet_cap_ratio).add(model.flats.rough_pinch_ratio);
    hash.add(model.flats.at_speed_m_s);
    const Repair& repair = model.repair;
    hash.add(repair.rear_extra_s).add(repair.tubeless_ratio).add(repair.notice_s);
    hash.add_flag(repair.can_repair).add_kind(repair.help);
    hash.add(repair.bare_hands_ratio).add(repair.plug_s).add(repair.patch_s);
    hash.add(repair.can_s).add(repair.boot_s).add(repair.top_up_s);
    hash.add(repair.mini_pump_s).add(repair.frame_pump_s).add(repair.mini_pump_pa);
    hash.add(repair.noticed_pa);
}

void add_kit(Hash& hash, const Kit& kit) {
    hash.add(double(kit.tubes)).add(double(kit.spare_inner)).add_kind(kit.pump);
    for (const double gas_kg : kit.cartridge_kg) hash.add(gas_kg);
    hash.add(double(kit.plugs)).add(double(kit.patches)).add(double(kit.boots));
    hash.add(double(kit.sealant_cans)).add_flag(kit.levers).add(kit.mass_kg);
    // What may be carried once more (kit.csv) depends on what each thing weighs.
    for (const KitItem& item : kit.items) hash.add(item.words).add(item.each_kg);
}

void add_leak(Hash& hash, const Leak& leak) {
    hash.add_kind(leak.wall.material);
    for (const double rate : leak.wall.rate_per_s) hash.add(rate);
    for (const auto& seen : {leak.air, leak.carbon_dioxide}) {
        hash.add(seen.start_gauge_pa).add(seen.lost_pa).add(seen.duration_s);
        hash.add(seen.temperature_k).add(seen.ambient_pa);
    }
    hash.add(leak.air_loss_pa).add(leak.carbon_dioxide_loss_pa);
}

void add_preparation(Hash& hash, const Preparation& preparation) {
    hash.add(preparation.before_s).add(preparation.pumped_at_k.value_or(-1.0));
    hash.add_kind(preparation.gas);
}

void add_setups(Hash& hash, const Model& model) {
    for (const Tyre& tyre : model.tyres) {
        hash.add(tyre.width_m).add(tyre.reference_pa);
        hash.add(tyre.crr_change).add(tyre.cut_ratio);
    }
    for (const Inner& inner : model.inners) {
        hash.add_kind(inner.kind).add_kind(inner.material);
        hash.add(inner.crr_change).add(inner.cut_ratio).add(inner.fitting_fault);
        hash.add(inner.sealant_holds).add(inner.sealant_loss_pa);
        add_leak(hash, inner.leak);
    }
    for (const Setup& setup : model.setups) {
        for (const Wheel& wheel : setup.wheels) {
            hash.add(double(wheel.tyre)).add(double(wheel.inner)).add(wheel.gauge_pa);
            hash.add(wheel.wear_ratio).add(wheel.fitting_ratio).add(wheel.load_share);
            hash.add_flag(wheel.spare_fits).add_flag(wheel.air_reaches);
        }
        const Kit& kit = setup.kit;
        hash.add(setup.added_mass_kg).add(setup.rolling_saved_crr);
        add_kit(hash, kit);
        hash.add(setup.vetoed ? 1.0 : 0.0);
    }
    const Decision& decision = model.decision;
    hash.add_kind(decision.rule).add(decision.percentile).add(double(decision.against));
    hash.add(decision.matters_s).add(decision.no_finish_costs_s);
    hash.add(decision.lost_by_flats_s);
    hash.add(decision.flats_at_speed_most.value_or(-1.0));
    hash.add(decision.front_at_speed_most.value_or(-1.0));
}

void add_course(Hash& hash, const course::Course& course) {
    for (const course::Node& node : course.nodes) {
        hash.add(node.distance_m).add(node.elevation_m).add(node.cap_m_s);
    }
    for (const course::Piece& piece : course.pieces) {
        hash.add(piece.east).add(piece.north).add_kind(piece.surface);
        hash.add(piece.shelter).add(piece.debris);
    }
}

}  // namespace

std::string make_fingerprint(const Model& model) {
    Hash hash;
    add_inputs(hash, model);
    add_race(hash, model);
    add_surroundings(hash, model);
    add_preparation(hash, model.preparation);
    add_setups(hash, model);
    if (model.course) add_course(hash, *model.course);
    return hash.digits();
}

}  // namespace flattail::scenario
